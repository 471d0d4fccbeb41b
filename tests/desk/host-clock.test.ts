import { describe, expect, test } from 'vitest'
import { type Desk, openDesk } from '../../src/desk/desk.ts'
import { emptyOutbox } from '../../src/desk/outbox.ts'
import { makeRounds } from '../../src/desk/rounds.ts'
import { type DeskAtWork, morning, openDeskAtWork } from './desk.ts'

/** A clock that can be set anywhere, as somebody with the rights on the host can. */
async function openWithClock(): Promise<DeskAtWork & { roundAt(instant: string): Promise<void> }> {
  const at = await openDeskAtWork()
  let now = at.clock.now()
  const desk: Desk = openDesk({ ...at.desk, clock: { now: () => now } })
  await emptyOutbox(desk)
  return {
    ...at,
    desk,
    roundAt: async (instant) => {
      now = instant
      await makeRounds(desk)
      await emptyOutbox(desk)
    },
  }
}

const monday = '2026-03-16'
const tuesday = '2026-03-17'
const at = (day: string, time: string) => `${day}T${time}:00.000Z`

describe('the clock of the host is set back', () => {
  test('by an hour, after the morning was asked: it is not asked again', async () => {
    const clinic = await openWithClock()
    await clinic.roundAt(at(monday, '06:30'))
    for (const time of ['05:30', '06:29', '06:30', '06:31']) await clinic.roundAt(at(monday, time))
    expect(asked(clinic)).toEqual([monday])
  })

  test('by a day: yesterday is not asked again, and today is when it comes', async () => {
    const clinic = await openWithClock()
    await clinic.roundAt(at(monday, '06:30'))
    await clinic.roundAt(at(tuesday, '06:30'))
    for (const day of [monday, tuesday, '2026-03-18']) await clinic.roundAt(at(day, '06:30'))
    expect(asked(clinic)).toEqual([monday, tuesday, '2026-03-18'])
  })
})

describe('the clock of the host runs a day ahead', () => {
  test('past the cut-off, and is set right again: the next morning is asked all the same', async () => {
    const clinic = await openWithClock()
    await clinic.roundAt(at(monday, '06:30'))
    await clinic.roundAt(at(tuesday, '11:00'))
    await clinic.roundAt(at(monday, '11:01'))
    await clinic.roundAt(at(tuesday, '06:30'))
    expect(asked(clinic)).toEqual([monday, tuesday])
    await clinic.roundAt(at(tuesday, '09:30'))
    const chart = await clinic.desk.charts.read('mika')
    expect(
      chart.entries.filter((entry) => entry.kind === 'check-in-missed' && entry.day === tuesday),
    ).toHaveLength(1)
  })

  test('in the morning: that day is asked early, and not again when it comes', async () => {
    const clinic = await openWithClock()
    await clinic.roundAt(at(tuesday, '06:30'))
    for (const time of ['06:00', '06:30', '06:31']) await clinic.roundAt(at(monday, time))
    await clinic.roundAt(at(tuesday, '06:30'))
    expect(asked(clinic)).toEqual([tuesday, monday])
  })
})

test('a host that is paused over a weekend asks no morning late, and writes down that it asked none', async () => {
  const clinic = await openWithClock()
  for (const day of [monday, tuesday, '2026-03-18', '2026-03-19', '2026-03-20']) {
    await clinic.roundAt(at(day, '06:30'))
    await clinic.roundAt(at(day, '09:30'))
  }
  await clinic.roundAt(at('2026-03-23', '06:29'))
  await clinic.roundAt(at('2026-03-23', '06:30'))
  expect(asked(clinic).slice(-2)).toEqual(['2026-03-20', '2026-03-23'])
  const chart = await clinic.desk.charts.read('mika')
  expect(chart.checkIns).toEqual([])
  expect(chart.prescriptions).toEqual([])
})

test('a call that rang before a pause rings on after it, once, and the auditor calls about the delay, once', async () => {
  const clinic = await openWithClock()
  await clinic.roundAt(at(monday, '06:30'))
  clinic.clock.pushTo(at(monday, '06:31'))
  const flagged = morning('mika', monday, {
    worstPain: 2,
    signs: { always: [], bone: ['bone-pain-at-night', 'sore-spot'] },
  })
  await clinic.submit('mika', flagged)
  await clinic.roundAt(at(monday, '06:31'))
  const before = calls(clinic)
  await clinic.roundAt(at('2026-03-19', '08:00'))
  await clinic.roundAt(at('2026-03-19', '08:00'))
  expect(calls(clinic)).toBe(before + 2)
  const chart = await clinic.desk.charts.read('mika')
  expect(chart.entries.filter((entry) => entry.kind === 'breach')).toHaveLength(1)
})

test('an open call over three pauses of a week, each found late by the auditor: nothing is written down twice', async () => {
  const clinic = await openWithClock()
  await clinic.roundAt(at(monday, '06:30'))
  clinic.clock.pushTo(at(monday, '06:31'))
  await clinic.submit('mika', morning('mika', monday, { signs: { always: ['chest-pain'], bone: [] } }))
  for (const time of ['06:31', '10:00']) await clinic.roundAt(at(monday, time))
  await clinic.roundAt(at('2026-03-23', '10:00'))
  // From here on something else is wrong too: the platform takes no call.
  clinic.face.weather = () => ({ failed: 'no connection', outcome: 'not sent' })
  await clinic.roundAt(at('2026-03-30', '10:00'))
  await clinic.roundAt(at('2026-04-06', '10:00'))
  const ids = (await clinic.desk.charts.read('mika')).entries.map((entry) => entry.id)
  expect(ids.filter((id, place) => ids.indexOf(id) !== place)).toEqual([])
})

function asked({ face }: DeskAtWork): string[] {
  return face.told
    .filter((notice) => notice.kind === 'prompt')
    .map((notice) => notice.key.split('/')[2] ?? '')
}

function calls({ face }: DeskAtWork): number {
  return face.told.filter((notice) => notice.kind === 'call').length
}
