import { readChart } from '../../src/chart/chart.ts'
import { dayAt, instantAt } from '../../src/chart/day.ts'
import type { Entry, EntryOf } from '../../src/chart/entries.ts'
import type { FamilySettings } from '../../src/chart/family.ts'
import type { Tissue } from '../../src/chart/ladder.ts'
import type { Prescription } from '../../src/chart/prescription.ts'
import { type Role, readRoster, type Team } from '../../src/chart/roster.ts'
import { openLibrary } from '../../src/desk/library.ts'
import { answer } from '../../src/rules/answer.ts'
import { groupsAsked } from '../../src/rules/check-in.ts'
import { isRefusal } from '../../src/rules/decision.ts'
import { Submission } from '../../src/rules/submissions.ts'
import { decide } from '../../src/rules/why.ts'
import { inOrder, inWords } from './in-order.ts'

export const library = openLibrary(new URL('../../shared', import.meta.url).pathname)

const people: readonly (readonly [string, Role])[] = [
  ['ada', 'athlete'],
  ['iben', 'therapist'],
  ['ravi', 'therapist'],
  ['noor', 'coach'],
  ['tove', 'strength-coach'],
  ['sunniva', 'clinic-lead'],
]

export const team: Team = {
  clinic: library.clinic,
  roster: readRoster(
    people.map(([id, role]) => ({
      id: `person/${id}`,
      author: 'sunniva',
      recordedAt: '2026-01-01T08:00:00.000Z',
      kind: 'person',
      person: { id, name: id, roles: [role], chatUser: `U-${id}`, timeZone: 'UTC', active: true },
    })),
  ),
}

export type Case = {
  readonly tissue: Tissue
  readonly ladder: string
  readonly diagnosis?: string
  readonly startRung?: number
  readonly startDay?: string
  readonly settings?: Partial<FamilySettings>
  readonly programme?: string
  readonly days?: EntryOf<'plan-signed'>['days']
  readonly ceiling?: EntryOf<'plan-signed'>['ceiling']
  readonly state?: EntryOf<'clearance'>['state']
  readonly clearedUntil?: string
  readonly episode?: Partial<EntryOf<'episode'>>
}

export const everyDay: EntryOf<'plan-signed'>['days'] = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun']
export const wide = { bodyWeightPct: 100, speedMps: 3.6, runMinutes: 60 }

/** An athlete whose days are lived through the real rules: what is handed in is answered, and what is decided stands. */
export function athlete(is: Case) {
  let entries: Entry[] = []
  let notices: string[] = []
  const startDay = is.startDay ?? '2026-03-01'

  function handIn(by: string, role: Role, at: string, submission: object): readonly Entry[] {
    const parsed = Submission.parse({ athlete: 'ada', ...submission })
    const decision = answer(readChart('ada', entries), parsed, {
      caller: { id: by, roles: [role] },
      team,
      shelf: library,
      now: at,
    })
    if (isRefusal(decision)) throw inWords(decision)
    inOrder(readChart('ada', entries), decision)
    entries = [...entries, ...decision.entries]
    notices = decision.notices.map(({ kind, to }) => `${kind} to ${'person' in to ? to.person : to.place}`)
    return decision.entries
  }

  const at = (day: string, time: string) => instantAt(day, time, 'UTC')
  const byTherapist = (day: string, submission: object, time = '12:00') =>
    handIn('iben', 'therapist', at(day, time), submission)

  byTherapist(startDay, {
    kind: 'enrolment',
    timeZone: 'UTC',
    promptAt: '06:30',
    therapist: 'iben',
    cover: 'ravi',
    coaches: ['noor', 'tove'],
    consentToCoach: true,
    precautions: [],
  })
  byTherapist(startDay, {
    kind: 'episode',
    diagnosis: is.diagnosis ?? 'any',
    tissue: is.tissue,
    site: 'somewhere',
    side: 'left',
    onsetDay: '2026-01-05',
    ...is.episode,
  })
  byTherapist(startDay, {
    kind: 'plan-signed',
    ladder: is.ladder,
    startRung: is.startRung ?? 1,
    days: is.days ?? everyDay,
    ceiling: is.ceiling ?? wide,
    ...(is.settings ? { settings: is.settings } : {}),
    ...(is.programme ? { programme: is.programme } : {}),
  })
  byTherapist(startDay, {
    kind: 'clearance',
    state: is.state ?? 'ground running',
    until: is.clearedUntil ?? '2026-12-31',
    ceiling: is.ceiling ?? wide,
  })

  /** The morning answers, quiet unless said otherwise; gives what is prescribed, or undefined when a call was opened. */
  function morning(day: string, answers: object = {}): Prescription | undefined {
    const asked = groupsAsked(chart(), day, team.clinic)
    const none = Object.fromEntries(asked.map((group) => [group, []]))
    const { signs = {}, ...others } = answers as { signs?: object }
    const temperature = asked.includes('surgery') ? { temperature: 36.6 } : {}
    const written = handIn('ada', 'athlete', at(day, '07:00'), {
      kind: 'check-in',
      day,
      answers: {
        worstPain: 0,
        morningPain: 0,
        swelling: 'no',
        ...temperature,
        signs: { ...none, ...signs },
        ...others,
      },
    })
    return written.find((entry): entry is Prescription => entry.kind === 'prescription')
  }

  /** The run as it was prescribed, at its easiest reading, unless said otherwise. */
  function run(day: string, log: object = {}): readonly Entry[] {
    const prescription = chart().prescriptions.findLast((one) => one.day === day)
    const dose = prescription?.dose
    const bouts = dose?.bouts
      .filter((bout) => bout.gait === 'run')
      .flatMap((bout) => {
        const speedMps = bout.speedMps?.low ?? 2.5
        const main = {
          gait: 'run',
          bodyWeightPct: bout.bodyWeightPct,
          speedMps,
          inclinePct: bout.inclinePct,
          minutes: bout.minutes?.low ?? (bout.distanceM ?? 0) / speedMps / 60,
          repeats: bout.repeats.low,
        }
        // Jogging between faster bouts is logged as a bout of its own.
        const jogM = bout.recovery?.gait === 'run' ? (bout.recovery.distanceM ?? 0) : 0
        const jog = { ...main, minutes: jogM / speedMps / 60, repeats: bout.repeats.low - 1 }
        return jogM > 0 ? [main, jog] : [main]
      }) ?? [{ gait: 'run', bodyWeightPct: 50, speedMps: 2.5, inclinePct: 0, minutes: 1, repeats: 1 }]
    return handIn('ada', 'athlete', at(day, '17:00'), {
      kind: 'session-done',
      day,
      bouts,
      painBefore: 0,
      painDuring: 0,
      painAfter: 0,
      rpe: 3,
      ...(is.tissue === 'joint' ? { soreness: 'none' } : {}),
      ...log,
    })
  }

  const chart = () => readChart('ada', entries)

  return {
    morning,
    run,
    handIn,
    byTherapist,
    chart,
    entries: () => entries,
    notices: () => notices,
    decide: (day: string, time = '07:05') => decide(chart(), team, at(day, time)),
    today: (instant: string) => dayAt(instant, 'UTC'),
    /** A quiet morning and, where one is prescribed, the run, on each of so many days. */
    live(from: string, days: number, each: (day: string) => { morning?: object; run?: object } = () => ({})) {
      const moves: string[] = []
      for (let n = 0; n < days; n += 1) {
        const day = new Date(Date.parse(from) + n * 86_400_000).toISOString().slice(0, 10)
        const said = each(day)
        const prescription = morning(day, said.morning)
        moves.push(
          `${prescription?.move ?? 'call'} ${prescription?.rung ?? '-'} ${prescription?.what ?? '-'}`,
        )
        if (prescription?.what === 'run') run(day, said.run)
      }
      return moves
    },
  }
}
