import type { Chart } from '../../src/chart/chart.ts'
import { instantAt, plusDays } from '../../src/chart/day.ts'
import type { Team } from '../../src/chart/roster.ts'
import { makeRounds } from '../../src/desk/rounds.ts'
import { type DeskAtWork, morning, openDeskAtWork } from '../desk/desk.ts'

const zone = 'Europe/Lisbon'
export const lastDay = '2026-03-29'
export const lastInstant = instantAt(lastDay, '12:00', zone)

export type Record = DeskAtWork & { readonly chart: Chart; readonly team: Team; readonly now: string }

/**
 * Two weeks of Mika through the real desk: runs, one with pain, a silent morning, a check-in struck and written anew, a
 * red flag called, closed and lifted, measures with one struck, and a request to amend that was denied.
 */
export async function twoWeeks(): Promise<Record> {
  const work = await openDeskAtWork(['mika'])
  for (let n = 0; n < 14; n += 1) await day(work, plusDays('2026-03-16', n))
  return reading(work)
}

export async function reading(work: DeskAtWork): Promise<Record> {
  return {
    ...work,
    chart: await work.desk.charts.read('mika'),
    team: await work.desk.team(),
    now: work.clock.now(),
  }
}

async function day(work: DeskAtWork, today: string): Promise<void> {
  const at = async (time: string) => {
    work.clock.pushTo(instantAt(today, time, zone))
    await makeRounds(work.desk)
  }
  const { submit } = work
  await at('06:30')
  await at('06:40')
  if (today !== '2026-03-19') await submit('mika', checkIn(today))
  if (today === '2026-03-21') await writtenAnew(work, today)
  if (today === '2026-03-24') {
    await submit('iben', {
      kind: 'call-acknowledged',
      athlete: 'mika',
      escalation: `escalation/check-in/mika/${today}`,
    })
    await closes(work, today)
  }
  await at('09:35')
  if (today === '2026-03-26') await liftsAll(work)
  await at('11:55')
  const chart = await work.desk.charts.read('mika')
  if (chart.prescriptions.findLast((one) => one.day === today)?.what === 'run')
    await submit('mika', run(today))
  if (today === '2026-03-27') {
    await measures(work)
    await restOfTheWeek(work)
  }
  if (today === '2026-03-28') await correction(work)
  await at('12:00')
}

function checkIn(today: string) {
  if (today === '2026-03-24')
    return morning('mika', today, {
      worstPain: 4,
      signs: { always: [], bone: ['bone-pain-at-night', 'sore-spot'] },
      note: '=HYPERLINK("http://evil","it woke me"), twice\nand then not',
    })
  return morning('mika', today, { sleep: 2, fatigue: 3, stress: 2, soreness: 1 })
}

async function writtenAnew({ submit }: DeskAtWork, today: string): Promise<void> {
  const strikes = `check-in/mika/${today}`
  await submit('iben', { kind: 'amendment', athlete: 'mika', strikes, words: 'Mika typed the day before.' })
  await submit('mika', morning('mika', today, { worstPain: 0, swelling: 'not sure' }))
}

async function closes({ submit }: DeskAtWork, today: string): Promise<void> {
  await submit('iben', {
    kind: 'escalation-closed',
    athlete: 'mika',
    escalation: `escalation/check-in/mika/${today}`,
    disposition: 'seen in person',
    words: 'No tenderness left.',
  })
  await submit('iben', {
    kind: 'hold-lifted',
    athlete: 'mika',
    hold: `hold/check-in/mika/${today}`,
    words: 'One-leg stand free of pain.',
  })
}

/** Pain in the run of the day before had put running on hold. */
async function liftsAll({ desk, submit }: DeskAtWork): Promise<void> {
  for (const { id } of (await desk.charts.read('mika')).holds)
    await submit('iben', { kind: 'hold-lifted', athlete: 'mika', hold: id, words: 'No pain on one leg.' })
}

function run(today: string) {
  const bout = { gait: 'run', bodyWeightPct: 50, speedMps: 2.5, inclinePct: 0, minutes: 1, repeats: 4 }
  return {
    kind: 'session-done',
    athlete: 'mika',
    day: today,
    bouts: [
      { ...bout, gait: 'walk', minutes: 5, repeats: 1, speedMps: 1.3 },
      { ...bout, measuredBodyWeightPct: 51.5 },
    ],
    painBefore: 0,
    painDuring: today === '2026-03-25' ? 2 : 0,
    painAfter: 0,
    rpe: 3.5,
  }
}

async function measures({ submit }: DeskAtWork): Promise<void> {
  const measure = { kind: 'measure', athlete: 'mika', day: '2026-03-27' }
  await submit('iben', { ...measure, measure: 'single-hop', value: 153, otherSide: 150 })
  await submit('iben', { ...measure, measure: 'single-hop', value: 135, otherSide: 150 })
  await submit('iben', { ...measure, measure: 'acl-rsi', value: 62.5, note: '-1 question left out' })
  await submit('iben', {
    kind: 'amendment',
    athlete: 'mika',
    strikes: 'measure/mika/1',
    words: 'Sides swapped.',
  })
}

/** What a week holds beside runs: exercises, a timed stand, a signature against a set, a review. */
async function restOfTheWeek({ submit }: DeskAtWork): Promise<void> {
  const plank = {
    exercise: 'side-plank',
    where: 'off-treadmill',
    sets: 3,
    repeats: 1,
    holdSeconds: 30,
    pain: 0,
  }
  const stand = { side: 'left', eyes: 'closed', surface: 'floor', seconds: 12.5, capSeconds: 45 }
  const day = '2026-03-27'
  await submit('mika', { kind: 'exercise-done', athlete: 'mika', day, exercises: [plank], balance: [stand] })
  await submit('iben', {
    kind: 'criteria-signed',
    athlete: 'mika',
    set: 'lbpp-to-ground',
    words: 'For the camp.',
  })
  await submit('iben', { kind: 'review', athlete: 'mika', day, next: 'go on', words: 'Steady.' })
}

async function correction({ submit }: DeskAtWork): Promise<void> {
  const entry = 'check-in/mika/2026-03-24'
  const request = 'amendment-request/mika/1'
  await submit('mika', { kind: 'amendment-request', athlete: 'mika', entry, words: 'It was 3, not 4.' })
  await submit('iben', {
    kind: 'amendment-request-answered',
    athlete: 'mika',
    request,
    outcome: 'denied',
    ground: 'accurate and complete',
    words: 'You typed 4 and the call was made on it.',
  })
  await submit('mika', { kind: 'disagreement-stated', athlete: 'mika', request, words: 'I still say 3.' })
}
