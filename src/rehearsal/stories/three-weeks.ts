import { instantAt, plusDays, plusMinutes, weekdayOf } from '../../chart/day.ts'
import { checksIn, closesCall, logsRun, newest, presses } from '../acts.ts'
import { coachesChannel } from '../cast.ts'
import { enrolEverybody, clinicZone as zone } from '../first-day.ts'
import type { Stage } from '../stage.ts'

/** Twenty-one days of three athletes; the clocks change on the way. */
export async function threeWeeks(stage: Stage): Promise<void> {
  await enrolEverybody(stage)
  for (let n = 0; n < 21; n += 1) await day(stage, n + 1, plusDays('2026-03-16', n))
}

async function day(stage: Stage, n: number, today: string): Promise<void> {
  stage.say(`\n=== Day ${n}, ${weekdayOf(today)} ${today}`)
  const at = (time: string) => instantAt(today, time, zone)
  await clockSays(stage, '06:30 in Lisbon', at('06:30'))
  stage.expect(promptsOf(stage, 'mika') === n, `Mika has been asked ${n} times by day ${n}`)
  const run = { mika: {}, adaeze: adaezesDay(n), joran: joransDay(n) }
  if (run.mika) await checksIn(stage, 'mika', run.mika)
  if (run.adaeze) await checksIn(stage, 'adaeze', run.adaeze)
  if (n === 2) await refusals(stage)
  if (n === 11) await silentTherapist(stage, today)
  if (n === 12) await closesTheUrgentCall(stage)
  await clockSays(stage, '08:30 in Lisbon', at('08:30'))
  if (run.joran) await checksIn(stage, 'joran', run.joran)
  if (n === 17) await emergency(stage, today)
  await clockSays(stage, 'noon', at('12:00'))
  if (n === 9) await lifts(stage, 'adaeze', plusDays(today, -1))
  await afternoon(stage, n, at('17:30'))
}

async function clockSays(stage: Stage, words: string, instant: string): Promise<void> {
  stage.say(`\n  -- ${words}`)
  await stage.advanceTo(instant)
}

/** Whoever has a run prescribed does it in the afternoon. */
async function afternoon(stage: Stage, n: number, instant: string): Promise<void> {
  stage.say('\n  -- half past five in Lisbon')
  await stage.advanceTo(instant)
  for (const athlete of ['mika', 'adaeze', 'joran']) {
    const plan = stage
      .as(athlete)
      .messages()
      .findLast((message) => message.text === 'Your plan for today is here.')
    const fresh = plan && Number(plan.ts) * 1000 > Date.parse(instant) - 12 * 3_600_000
    if (!fresh || !JSON.stringify(plan.blocks).includes('Log this run')) continue
    await logsRun(
      stage,
      athlete,
      athlete === 'adaeze' && n === 8 ? { painDuring: 2, painAfter: 1, rpe: 4 } : {},
    )
  }
  await stage.advanceTo(plusMinutes(instant, 2))
  expectations(stage, n)
}

function adaezesDay(n: number) {
  if (n === 9) return { worstPain: 1 }
  if (n === 11)
    return {
      worstPain: 2,
      morningPain: 2,
      signs: { bone: ['bone-pain-at-night', 'sore-spot'] },
      note: 'It woke me twice.',
    }
  return {}
}

function joransDay(n: number) {
  return n === 4 || n === 5 || n === 17 ? undefined : {}
}

/** What must be refused, in words, with nothing written. */
async function refusals(stage: Stage): Promise<void> {
  stage.say('  Mika tries to check in a second time today')
  const mika = stage.as('mika')
  await mika.command('/checkin')
  await stage.workspace.quiet()
  for (const [field, value] of [
    ['worstPain', '0'],
    ['morningPain', '0'],
    ['swelling', 'no'],
  ] as const)
    mika.fill(field, value)
  mika.fill('signs-always', ['none'])
  mika.fill('signs-bone', ['none'])
  const again = await mika.submit()
  stage.say(`    the form says: ${Object.values(again.errors ?? {}).join(' ')}`)
  stage.expect(
    !again.closed && Object.values(again.errors ?? {}).some((words) => words.includes('checked in')),
    'a second check-in of a day is refused in words',
  )
  await mika.close(true)
  const coach = await stage.as('noor').command('/checkin')
  stage.say(`  Noor, the coach, types /checkin and reads: ${coach.reply?.text}`)
  stage.expect(
    coach.reply?.text?.includes('Only athletes') ?? false,
    'a coach cannot check in for an athlete',
  )
}

/** An urgent call that the first therapist does not answer: it goes on to the cover, and a restart does not lose it. */
async function silentTherapist(stage: Stage, today: string): Promise<void> {
  stage.expect(newest(stage, 'iben', 'Urgent call') !== undefined, 'Iben is called about Adaeze')
  stage.expect(newest(stage, 'adaeze', 'No running today') !== undefined, 'Adaeze is told to stop')
  stage.say('  Iben does not answer. The bot is stopped and started again meanwhile.')
  await stage.bot.restart()
  await clockSays(stage, 'half past seven', instantAt(today, '07:35', zone))
  stage.expect(
    newest(stage, 'ravi', 'Urgent call') !== undefined,
    'after an hour of silence Ravi, the cover, is called',
  )
  await presses(stage, 'ravi', 'acknowledge')
  stage.expect(newest(stage, 'ravi', 'Acknowledged by Ravi') !== undefined, 'Ravi has the call, by name')
  stage.expect(newest(stage, 'iben', 'Acknowledged by Ravi') !== undefined, 'Iben hears who has it')
  const late = await presses(stage, 'iben', 'acknowledge')
  stage.expect(
    late?.includes('Ravi Thornby has this call already') ?? false,
    'Iben, pressing late, is told who has it',
  )
}

/** Pain in the run put it on hold; Iben has looked and lifts it by name. */
async function lifts(stage: Stage, athlete: string, sessionDay: string): Promise<void> {
  stage.expect(
    newest(stage, athlete, 'on hold') !== undefined,
    'pain in the run of a bone puts running on hold',
  )
  stage.say('  Iben has looked at the shin, finds no tender spot, and lifts the hold')
  await stage.bot.submit('iben', {
    kind: 'hold-lifted',
    athlete,
    hold: `hold/session/${athlete}/${sessionDay}`,
    words: 'Seen in the clinic; no tender spot. One rung back tomorrow.',
  })
  await stage.settle()
}

async function closesTheUrgentCall(stage: Stage): Promise<void> {
  await closesCall(stage, 'ravi', {
    disposition: 'seen in person',
    words: 'Seen in the clinic; no tenderness left, one-leg stand free of pain.',
    hold: 'lift',
  })
  stage.expect(newest(stage, 'iben', 'Closed by Ravi') !== undefined, 'Iben hears how it was closed')
  stage.expect(
    newest(stage, 'adaeze', 'lifted the hold') !== undefined,
    'Adaeze hears that the hold is lifted, and by whom',
  )
}

async function emergency(stage: Stage, today: string): Promise<void> {
  await checksIn(stage, 'joran', { signs: { always: ['chest-pain'] } })
  stage.expect(
    newest(stage, 'joran', 'Call 112 now') !== undefined,
    'Joran is told at once to call the emergency number',
  )
  await stage.advanceTo(instantAt(today, '08:34', zone))
  await presses(stage, 'iben', 'acknowledge')
  await closesCall(stage, 'iben', {
    disposition: 'sent to emergency care',
    words: 'Sent to hospital; the family is with him.',
    hold: 'keep',
  })
  await stage.advanceTo(instantAt(today, '08:50', zone))
  stage.expect(
    listNow(stage).includes('*Joran Pell*: not cleared today'),
    'the coaches see that Joran is not cleared, and not why',
  )
}

function expectations(stage: Stage, n: number): void {
  const list = listNow(stage)
  stage.expect(!/pain|tibia|sore|chest|night/i.test(list), "the coaches' list holds nothing medical")
  if (n === 1)
    stage.expect(
      list.includes('*Mika Oddvar*: run done: up to 50 % of body weight'),
      'Mika runs at 50 % on day 1',
    )
  if (n === 2) stage.expect(list.includes('*Mika Oddvar*: no run today'), 'nobody runs on days that touch')
  if (n === 4)
    stage.expect(
      newest(stage, 'joran', 'still open') !== undefined,
      'Joran is reminded once on the silent day',
    )
  if (n === 5)
    stage.expect(newest(stage, 'iben', 'Joran Pell') !== undefined, 'Iben hears of two silent days of Joran')
  if (n === 8)
    stage.expect(
      list.includes('*Mika Oddvar*: run done: up to 60 %'),
      'Mika moves up to 60 % after a settled week',
    )
  if (n === 8)
    stage.expect(
      newest(stage, 'iben', 'pain 2 of 10 during the run') !== undefined,
      'Iben hears of pain in the run the same day',
    )
  if (n === 10)
    stage.expect(
      list.includes('*Adaeze Quill*: run done: up to 50 %'),
      'Adaeze goes one rung back after pain in the run',
    )
  if (n === 11)
    stage.expect(list.includes('*Adaeze Quill*: not cleared today'), 'the coaches see Adaeze as not cleared')
  if (n === 12)
    stage.expect(
      list.includes('*Adaeze Quill*: not cleared today. Otherwise cleared'),
      'no running on the day of the lift: the next check-in decides',
    )
  if (n === 15)
    stage.expect(
      list.includes('*Mika Oddvar*: run done: up to 70 %'),
      'Mika moves up to 70 % in the third week',
    )
  if (n === 21)
    stage.expect(
      list.includes('*Joran Pell*: not cleared today'),
      'the hold on Joran stays until a therapist lifts it',
    )
}

function listNow(stage: Stage): string {
  return JSON.stringify(stage.as('noor').messages(coachesChannel.id).at(-1)?.blocks ?? [])
}

function promptsOf(stage: Stage, athlete: string): number {
  return stage
    .as(athlete)
    .messages()
    .filter((m) => m.text === 'Good morning. Your check-in is ready.').length
}
