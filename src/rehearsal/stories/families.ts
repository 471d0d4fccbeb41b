import { instantAt, plusDays, plusMinutes, weekdayOf } from '../../chart/day.ts'
import { checksIn, logsRun, type Morning, newest, type Run } from '../acts.ts'
import { cast, coachesChannel } from '../cast.ts'
import { clinicZone as zone } from '../first-day.ts'
import type { Stage } from '../stage.ts'

/** One athlete of each tissue over ten days: the same rules of the day, four rules of pain. */
export async function families(stage: Stage): Promise<void> {
  await enrolOfEach(stage)
  for (let n = 1; n <= 10; n += 1) await day(stage, n, plusDays('2026-03-16', n - 1))
  stage.expect(
    newest(stage, 'mika', 'at 60 % of body weight') !== undefined,
    'the bone that settled goes up to 60 %',
  )
  stage.expect(
    newest(stage, 'adaeze', 'the therapist grades it') !== undefined,
    'a knee that may be more swollen waits for the therapist that day',
  )
  stage.expect(
    newest(stage, 'joran', 'Within the rule during the run') !== undefined,
    'a tendon may hurt up to 5 and go on, when it has settled by morning',
  )
  stage.expect(
    newest(stage, 'tarek', 'one rung back') !== undefined,
    'a muscle that felt a twinge goes one phase back',
  )
}

const cases = {
  mika: {
    tissue: 'bone',
    diagnosis: 'tibial stress reaction',
    ladder: 'tibial-stress-reaction-lbpp',
    startRung: 1,
  },
  adaeze: {
    tissue: 'joint',
    diagnosis: 'ACL reconstruction',
    ladder: 'knee-eight-levels-treadmill',
    startRung: 2,
  },
  joran: {
    tissue: 'tendon',
    diagnosis: 'Achilles tendinopathy',
    ladder: 'tendon-pain-monitored',
    startRung: 2,
  },
  tarek: { tissue: 'muscle', diagnosis: 'hamstring strain', ladder: 'walk-run-six-phases', startRung: 2 },
} as const
type Athlete = keyof typeof cases
const athletes = Object.keys(cases) as Athlete[]

async function enrolOfEach(stage: Stage): Promise<void> {
  stage.say('\n=== Before the first day: Iben enrols one athlete of each tissue and signs a ladder for each')
  for (const { id, name, role, account, timeZone } of cast)
    await stage.bot.submit('sunniva', {
      kind: 'person',
      person: { id, name, roles: [role], chatUser: account, timeZone, active: true },
    })
  await stage.bot.submit('sunniva', { kind: 'place', place: 'coaches', channel: coachesChannel.id })
  for (const athlete of athletes)
    for (const entry of signedFor(athlete)) await stage.bot.submit('iben', entry)
  await stage.bot.round()
  await stage.settle()
}

function signedFor(athlete: Athlete): readonly object[] {
  const { tissue, diagnosis, ladder, startRung } = cases[athlete]
  const ceiling = { bodyWeightPct: 100, speedMps: 3.6, runMinutes: 30 }
  const unloaded = tissue === 'bone' || tissue === 'tendon'
  return [
    {
      kind: 'enrolment',
      athlete,
      timeZone: zone,
      promptAt: '06:30',
      therapist: 'iben',
      cover: 'ravi',
      coaches: ['noor', 'tove'],
      consentToCoach: true,
      precautions: [],
    },
    {
      kind: 'episode',
      athlete,
      diagnosis,
      tissue,
      site: '',
      side: 'left',
      onsetDay: '2025-11-20',
      ...(tissue === 'joint' ? { surgeryDay: '2025-12-01' } : {}),
    },
    {
      kind: 'plan-signed',
      athlete,
      ladder,
      startRung,
      days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'],
      ceiling,
      programme: 'trunk-and-balance',
    },
    {
      kind: 'clearance',
      athlete,
      state: unloaded ? 'unloaded running' : 'ground running',
      ceiling,
      until: '2026-04-30',
    },
  ]
}

async function day(stage: Stage, n: number, today: string): Promise<void> {
  stage.say(`\n=== Day ${n}, ${weekdayOf(today)} ${today}`)
  await stage.advanceTo(instantAt(today, '06:30', zone))
  for (const athlete of athletes) await checksIn(stage, athlete, morningOf(athlete, n))
  await stage.advanceTo(instantAt(today, '17:30', zone))
  for (const athlete of athletes)
    if (runsToday(stage, athlete, today)) await logsRun(stage, athlete, runOf(athlete, n))
  await stage.advanceTo(plusMinutes(instantAt(today, '17:30', zone), 2))
}

function morningOf(athlete: Athlete, n: number): Morning {
  if (athlete === 'joran') return { worstPain: 3, morningPain: 1 }
  if (athlete === 'adaeze' && n === 9) return { swelling: 'not sure' }
  return {}
}

function runOf(athlete: Athlete, n: number): Run {
  if (athlete === 'joran') return { painBefore: 1, painDuring: 3, painAfter: 2 }
  if (athlete === 'adaeze' && n === 3) return { soreness: 'warm-up-gone' }
  if (athlete === 'adaeze' && n === 5) return { soreness: 'warm-up-stayed' }
  if (athlete === 'tarek' && n === 3) return { painDuring: 1 }
  return {}
}

function runsToday(stage: Stage, athlete: Athlete, today: string): boolean {
  const plan = stage
    .as(athlete)
    .messages()
    .findLast((message) => message.text === 'Your plan for today is here.')
  const fresh = plan && Number(plan.ts) * 1000 > Date.parse(instantAt(today, '00:00', zone))
  return Boolean(fresh && JSON.stringify(plan.blocks).includes('Log this run'))
}
