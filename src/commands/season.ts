import type { Sealed } from '../chart/chain.ts'
import type { Chart } from '../chart/chart.ts'
import { prescriptionOf } from '../chart/chart.ts'
import { type Day, plusDays } from '../chart/day.ts'
import { clinicSubject } from '../chart/roster.ts'
import { openDesk } from '../desk/desk.ts'
import { receive, receiveForClinic } from '../desk/intake.ts'
import { openLibrary } from '../desk/library.ts'
import { makeRounds } from '../desk/rounds.ts'
import { cast, coachesChannel, enrolment, player } from '../rehearsal/cast.ts'
import type { Modal } from '../slack/blocks.ts'
import { checkInModal } from '../slack/check-in.ts'
import { sessionModal } from '../slack/session.ts'
import { memoryStore } from '../stores/memory.ts'

const athlete = 'mika'
const timeZone = 'UTC'

/** An athlete's whole history as the real rules wrote it, to be copied for as many athletes as a test needs. */
export type Season = {
  readonly people: readonly object[]
  /** The entries of another athlete with the same history. */
  entriesOf(id: string): readonly { readonly id: string }[]
  readonly chart: Chart
  /** The check-in form as it is shown on the day after the last, and the log of a run. */
  readonly form: Modal
  readonly log: Modal
}

/** Enrols one athlete so many days ago and lives every day since: prompt, check-in, prescription, run. */
export async function liveSeason(days: number, today: Day): Promise<Season> {
  const store = memoryStore()
  const library = openLibrary('shared')
  let now = `${plusDays(today, -days)}T05:00:00.000Z`
  const face = { deliver: neverCalled, find: neverCalled }
  const desk = openDesk({
    store,
    face,
    clock: { now: () => now },
    library,
    clinic: library.clinic,
    report: () => {},
  })

  const submit = async (by: string, submission: object) => {
    const caller = { id: by, roles: [player(by).role] }
    const outcome = await ('athlete' in submission ? receive : receiveForClinic)(desk, caller, submission)
    if ('refused' in outcome) throw new Error(`${outcome.refused}: ${outcome.words}`)
  }

  for (const { id, name, role, account } of cast)
    await submit('sunniva', {
      kind: 'person',
      person: { id, name, roles: [role], chatUser: account, timeZone, active: true },
    })
  await submit('sunniva', { kind: 'place', place: 'coaches', channel: coachesChannel.id })
  const episode = {
    site: 'distal medial tibia',
    side: 'left',
    onsetDay: plusDays(today, -days - 30),
  } as const
  const clearedUntil = plusDays(today, 60)
  for (const one of enrolment({ ...player(athlete), timeZone }, { ...episode, clearedUntil }))
    await submit('iben', one)
  for (let day = plusDays(today, 1 - days); day < today; day = plusDays(day, 1)) {
    now = `${day}T06:30:00.000Z`
    await makeRounds(desk)
    await submit(athlete, morningOf(day))
    now = `${day}T17:00:00.000Z`
    const run = runOf(await desk.charts.read(athlete), day)
    if (run) await submit(athlete, run)
  }
  const chart = await desk.charts.read(athlete)
  const text = JSON.stringify((await store.read(athlete)).map(unsealed))
  const people = (await store.read(clinicSubject)).map(unsealed)
  return {
    people,
    entriesOf: (id) => JSON.parse(text.replaceAll(athlete, id)),
    chart,
    form: checkInModal(chart, today, await desk.team()),
    log: sessionModal(chart, today),
  }
}

async function neverCalled(): Promise<never> {
  throw new Error('nothing is sent in a season')
}

function unsealed({ before: _, ...entry }: Sealed): object {
  return entry
}

function morningOf(day: Day): object {
  const answers = { worstPain: 0, morningPain: 0, swelling: 'no', signs: { always: [], bone: [] } }
  return { kind: 'check-in', athlete, day, answers }
}

function runOf(chart: Chart, day: Day): object | undefined {
  const bout = prescriptionOf(chart, day)?.dose?.bouts.find((one) => one.gait === 'run')
  if (!bout) return undefined
  const { bodyWeightPct, repeats, minutes, speedMps } = bout
  const done = {
    gait: 'run',
    bodyWeightPct,
    speedMps: speedMps?.low ?? 2.5,
    inclinePct: 0,
    minutes: minutes?.low ?? 5,
    repeats: repeats.low,
  }
  return {
    kind: 'session-done',
    athlete,
    day,
    bouts: [done],
    painBefore: 0,
    painDuring: 0,
    painAfter: 0,
    rpe: 3,
  }
}
