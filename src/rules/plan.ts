import type { Chart } from '../chart/chart.ts'
import type { Clinic } from '../chart/clinic.ts'
import type { Day } from '../chart/day.ts'
import type { EntryOf } from '../chart/entries.ts'
import { defaultsOf, type Family, FamilySettings } from '../chart/family.ts'
import { ladderFor } from './built-ladder.ts'
import { isRefusal, type Refusal } from './decision.ts'
import type { Shelf } from './shelf.ts'
import type { Submission } from './submissions.ts'

type PlanSubmission = Extract<Submission, { kind: 'plan-signed' }>
type Plan = Omit<EntryOf<'plan-signed'>, 'id' | 'author' | 'recordedAt'>

type Signing = { readonly shelf: Shelf; readonly clinic: Clinic; readonly today: Day }

/**
 * The plan as it will stand in the chart. Ladder, exercises and the rules of pain are copied in, so that later
 * edits of the shared files never reach back (D3).
 */
export function planFrom(chart: Chart, submitted: PlanSubmission, at: Signing): Plan | Refusal {
  const { shelf } = at
  const { ladder: asked, programme: wanted, settings: chosen, ...rest } = submitted
  const { episode } = chart
  if (!episode) return refuse('no-episode', 'Write the episode first.', 'athlete')
  const found = ladderOf(chart, asked, at)
  if (isRefusal(found)) return found
  const { ladder } = found
  if (!ladder.tissues.includes(episode.tissue))
    return refuse(
      'other-tissue',
      `This ladder is for ${ladder.tissues.join(' and ')}; the episode is about ${episode.tissue}.`,
      'ladder',
    )
  if (submitted.startRung > ladder.rungs.length)
    return refuse('no-such-rung', `The ladder has ${ladder.rungs.length} rungs.`, 'startRung')
  const programme = typeof wanted === 'string' ? shelf.programme(wanted) : wanted
  if (wanted !== undefined && !programme)
    return refuse('unknown-programme', `There is no exercise programme ${wanted}.`, 'programme')
  const settings = chosenOf(shelf.family(episode.tissue), chosen ?? {})
  if (isRefusal(settings)) return settings
  return { ...rest, ...found, settings, ...(programme ? { programme } : {}) }
}

/** Of the shelf, or built anew from what was wished: a ladder that somebody hands in is never taken as it is (D20). */
function ladderOf(
  chart: Chart,
  asked: PlanSubmission['ladder'],
  { shelf, clinic, today }: Signing,
): Pick<Plan, 'ladder' | 'builtFrom'> | Refusal {
  if (typeof asked !== 'string') {
    const built = ladderFor(chart, asked.built, clinic, today)
    return isRefusal(built) ? built : { ladder: built.ladder, builtFrom: asked.built }
  }
  const ladder = shelf.ladder(asked)
  return ladder ? { ladder } : refuse('unknown-ladder', `There is no ladder ${asked}.`, 'ladder')
}

/** The defaults with the therapist's own choices in; a choice that the family does not allow is refused. */
function chosenOf(family: Family, chosen: NonNullable<PlanSubmission['settings']>): FamilySettings | Refusal {
  for (const [name, value] of Object.entries(chosen)) {
    const allowed: readonly unknown[] = family.settings[name as keyof FamilySettings]?.allowed ?? []
    if (!allowed.includes(value))
      return refuse(
        'setting-not-allowed',
        `${name} may be ${allowed.join(', ') || 'left out'} for this tissue.`,
        `settings.${name}`,
      )
  }
  return FamilySettings.parse({ ...defaultsOf(family), ...chosen })
}

function refuse(refused: string, words: string, field: string): Refusal {
  return { refused, words, field }
}
