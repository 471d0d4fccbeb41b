import { readChart } from '../../src/chart/chart.ts'
import type { Notice } from '../../src/chart/notices.ts'
import { type Desk, openDesk } from '../../src/desk/desk.ts'
import { receive, receiveForClinic } from '../../src/desk/intake.ts'
import { openLibrary } from '../../src/desk/library.ts'
import type { Delivery, Face, Receipt, Store, Told } from '../../src/desk/ports.ts'
import { cast, coachesChannel, enrolment, player } from '../../src/rehearsal/cast.ts'
import { type PushedClock, pushedClock } from '../../src/rehearsal/clock.ts'
import { memoryStore } from '../../src/stores/memory.ts'

/** A face that keeps what it was given; `weather` decides what becomes of each try. */
export type RecordingFace = Face & {
  readonly told: Notice[]
  weather: (told: Told, tries: number) => Delivery | undefined
  found: Receipt | 'absent' | 'unsure'
}

export function recordingFace(): RecordingFace {
  const told: Notice[] = []
  const tries = new Map<string, number>()
  const face: RecordingFace = {
    told,
    weather: () => undefined,
    found: 'absent',
    find: async () => face.found,
    deliver: async (one) => {
      const number = (tries.get(one.notice.key) ?? 0) + 1
      tries.set(one.notice.key, number)
      const failed = face.weather(one, number)
      if (failed && !('sent' in failed) && failed.outcome === 'not sent') return failed
      told.push(one.notice)
      return failed ?? { sent: { channel: 'D1', ts: String(told.length) } }
    },
  }
  return face
}

export type DeskAtWork = {
  readonly desk: Desk
  readonly store: Store
  readonly face: RecordingFace
  readonly clock: PushedClock
  submit(by: string, submission: object): Promise<void>
}

/** The invented clinic on the Sunday on which these athletes were enrolled, on a store in memory. */
export async function openDeskAtWork(athletes: readonly string[] = ['mika']): Promise<DeskAtWork> {
  const clock = pushedClock('2026-03-15T10:00:00.000Z')
  const library = openLibrary('shared')
  const store = memoryStore()
  const face = recordingFace()
  const desk = openDesk({ store, face, clock, library, clinic: library.clinic, report: () => {} })
  const submit = async (by: string, submission: object) => {
    const caller = { id: by, roles: [player(by).role] }
    const clinics = ['person', 'place'].includes((submission as { kind: string }).kind)
    const outcome = await (clinics ? receiveForClinic : receive)(desk, caller, submission)
    if ('refused' in outcome) throw new Error(outcome.words)
  }
  for (const { id, name, role, account, timeZone } of cast)
    await submit('sunniva', {
      kind: 'person',
      person: { id, name, roles: [role], chatUser: account, timeZone, active: true },
    })
  await submit('sunniva', { kind: 'place', place: 'coaches', channel: coachesChannel.id })
  const episode = {
    site: 'distal medial tibia',
    side: 'left',
    onsetDay: '2026-02-12',
    clearedUntil: '2026-04-12',
  } as const
  for (const id of athletes) for (const one of enrolment(player(id), episode)) await submit('iben', one)
  return { desk, store, face, clock, submit }
}

/** An ordinary morning; what is remarkable is stated. */
export function morning(athlete: string, day: string, over: object = {}) {
  const answers = { worstPain: 0, morningPain: 0, swelling: 'no', signs: { always: [], bone: [] }, ...over }
  return { kind: 'check-in', athlete, day, answers }
}

export async function kindsIn(desk: Desk, athlete: string): Promise<string[]> {
  const chart = await desk.charts.read(athlete)
  return readChart(athlete, chart.entries).entries.map((entry) => entry.kind)
}
