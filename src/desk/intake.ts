import type { ZodError } from 'zod'
import { type Chart, withEntries } from '../chart/chart.ts'
import type { Entry } from '../chart/entries.ts'
import { type ClinicEntry, clinicSubject } from '../chart/roster.ts'
import { answer } from '../rules/answer.ts'
import { clinicFault } from '../rules/clinic-answer.ts'
import { isRefusal, type Refusal } from '../rules/decision.ts'
import { nextDue } from '../rules/due.ts'
import type { Caller } from '../rules/permissions.ts'
import { coveredBy } from '../rules/rota.ts'
import { notSetUp } from '../rules/set-up.ts'
import { ClinicSubmission, Submission } from '../rules/submissions.ts'
import type { Desk } from './desk.ts'
import { isStoreTrouble } from './ports.ts'

/** What was written, and the chart with it in. It is on disk by the time anybody reads this. */
export type Accepted = { readonly written: readonly Entry[]; readonly chart: Chart }

/**
 * Submission -> caller checked -> chart read -> decision -> commit. When somebody else wrote to the chart in
 * between, it is read and decided again; nothing is sent from here.
 */
export async function receive(desk: Desk, caller: Caller, submitted: unknown): Promise<Accepted | Refusal> {
  const parsed = Submission.safeParse(submitted)
  if (!parsed.success) return malformed(parsed.error)
  return kept(async () => {
    for (let attempt = 0; attempt < 10; attempt += 1) {
      const team = await desk.team()
      const unready = parsed.data.kind === 'enrolment' ? notSetUp(team) : undefined
      if (unready) return unready
      const chart = await desk.charts.read(parsed.data.athlete)
      const now = desk.clock.now()
      const covers = coveredBy(team, caller.id, now)
      const asked = { caller: { ...caller, covers }, team, shelf: desk.library, now }
      const decision = answer(chart, parsed.data, asked)
      if (isRefusal(decision)) return decision
      const after = withEntries(chart, decision.entries)
      const outcome = await desk.store.commit({
        subject: chart.athlete,
        entries: decision.entries,
        notices: decision.notices,
        atLength: chart.entries.length,
        dueAt: nextDue(after, team, now),
        open: true,
      })
      if ('moved' in outcome) continue
      desk.charts.wrote(after)
      return { written: decision.entries, chart: after }
    }
    return { refused: 'busy', words: 'This chart is being written to by many at once. Please try again.' }
  })
}

/** Submissions about the clinic itself: people, places, covers, who is on call; into the clinic's journal. */
export async function receiveForClinic(
  desk: Desk,
  caller: Caller,
  submitted: unknown,
): Promise<Refusal | { done: true }> {
  const parsed = ClinicSubmission.safeParse(submitted)
  if (!parsed.success) return malformed(parsed.error)
  return kept(async () => {
    for (let attempt = 0; attempt < 10; attempt += 1) {
      const { roster } = await desk.team()
      const fault = clinicFault(parsed.data, caller, { clinic: desk.clinic, roster })
      if (fault) return fault
      const entry: ClinicEntry = {
        id: `${parsed.data.kind}/${roster.length + 1}`,
        author: caller.id,
        recordedAt: desk.clock.now(),
        ...parsed.data,
      }
      const commit = {
        subject: clinicSubject,
        entries: [entry],
        notices: [],
        atLength: roster.length,
        dueAt: null,
        open: true,
      }
      if ('committed' in (await desk.store.commit(commit))) return { done: true }
    }
    return { refused: 'busy', words: 'The journal is being written to by many at once. Please try again.' }
  })
}

/** A store that cannot keep a submission refuses it, with what to do; anything else is a bug and throws. */
async function kept<T>(attempt: () => Promise<T | Refusal>): Promise<T | Refusal> {
  try {
    return await attempt()
  } catch (error) {
    if (isStoreTrouble(error))
      return {
        refused: 'not-kept',
        words: `Nothing was saved. ${error.words} Please tell the clinic lead, and call instead.`,
      }
    throw error
  }
}

function malformed(error: ZodError): Refusal {
  const issue = error.issues[0]
  const field = issue?.path.map(String).join('.') ?? ''
  return {
    refused: 'malformed',
    words: `${field || 'The form'}: ${issue?.message ?? 'not understood'}.`,
    field,
  }
}
