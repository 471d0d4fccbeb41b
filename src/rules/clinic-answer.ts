import type { Team } from '../chart/roster.ts'
import { settingsFault } from './clinic-settings.ts'
import type { Refusal } from './decision.ts'
import { type Caller, notYours } from './permissions.ts'
import { coverFault, mayChange, onCallFault, rangeFault } from './rota.ts'
import { founds } from './set-up.ts'
import type { ClinicSubmission } from './submissions.ts'

/**
 * `team.clinic` is the clinic as its file has it: settings are measured against that, not against each other.
 *
 * Why the clinic's journal does not take this; undefined when it does. Whoever goes away may name their own cover. */
export function clinicFault(submission: ClinicSubmission, caller: Caller, team: Team): Refusal | undefined {
  const isLead = caller.roles.includes('clinic-lead')
  const own =
    submission.kind === 'cover' && caller.roles.includes('therapist') && submission.person === caller.id
  if (!isLead && !own && !founds(submission, caller.id, team)) return notYours(submission.kind)
  switch (submission.kind) {
    case 'person':
      return mayChange(team, submission.person)
    case 'cover':
      return coverFault(team, submission)
    case 'on-call':
      return onCallFault(team, submission)
    case 'closed':
      return rangeFault(submission)
    case 'settings':
      return settingsFault(team.clinic, submission.settings)
    case 'place':
    case 'withdrawn':
      return undefined
    default:
      return submission satisfies never
  }
}
