import { describe, expect, test } from 'vitest'
import { respond } from '../../src/rules/response.ts'
import { athlete, type Case } from './life.ts'

const bone: Case = { tissue: 'bone', ladder: 'tibial-stress-reaction-lbpp' }
const joint: Case = { tissue: 'joint', ladder: 'knee-eight-levels-treadmill' }
const tendon: Case = { tissue: 'tendon', ladder: 'tendon-pain-monitored', state: 'unloaded running' }
const muscle: Case = { tissue: 'muscle', ladder: 'walk-run-six-phases' }

type Told = { before?: object; run?: object; next?: object | null; second?: object | null }

/** A run on Monday with the mornings around it; null is a morning that was not answered. */
function bodyAfter(is: Case, { before, run, next = {}, second = {} }: Told, today = '2026-03-04') {
  const ada = athlete(is)
  ada.morning('2026-03-02', before)
  ada.run('2026-03-02', run)
  if (next) ada.morning('2026-03-03', next)
  if (second && today >= '2026-03-04') ada.morning('2026-03-04', second)
  const session = ada.chart().sessions[0]
  if (!session) throw new Error('no run')
  return respond(ada.chart(), session, today)
}

type Row = [string, Told, string]

describe('bone: no pain in the run and none for 24 hours after [vincent-2022]', () => {
  const rows: Row[] = [
    ['nothing at all has settled', {}, 'settled'],
    ['1 of 10 in the run has flared', { run: { painDuring: 1 } }, 'flared'],
    ['1 of 10 straight after has flared', { run: { painAfter: 1 } }, 'flared'],
    ['1 of 10 since, told the next morning, has flared', { next: { worstPain: 1 } }, 'flared'],
    ['1 of 10 getting up has flared', { next: { morningPain: 1 } }, 'flared'],
    ['1 of 10 told on the second morning has flared', { second: { worstPain: 1 } }, 'flared'],
    ['pain before the run leaves it on the same rung', { run: { painBefore: 1 } }, 'provoked'],
    ['swelling the next morning', { next: { swelling: 'yes' } }, 'provoked'],
    ['not being sure of swelling', { next: { swelling: 'not sure' } }, 'provoked'],
    ['no answer the next morning is not known', { next: null }, 'unknown'],
    ['no answer on the second morning is no loss', { second: null }, 'settled'],
    ['pain is read though the next morning is missing', { run: { painDuring: 1 }, next: null }, 'flared'],
    [
      'pain on the second morning is read though the first is missing',
      { next: null, second: { worstPain: 1 } },
      'flared',
    ],
  ]
  for (const [title, told, expected] of rows)
    test(title, () => expect(bodyAfter(bone, told).response).toBe(expected))

  test('what a tendon may feel flares a bone, and the other way round (T8)', () => {
    const four = { before: { worstPain: 2 }, run: { painDuring: 4 } }
    expect(bodyAfter(bone, { run: { painDuring: 4 } }).response).toBe('flared')
    expect(bodyAfter(tendon, four).response).toBe('settled')
  })
})

describe('joint: the soreness rows [white-soreness-effusion]', () => {
  const rows: Row[] = [
    ['none, and no swelling: settled', {}, 'settled'],
    ['sore in the warm-up, gone as it goes on', { run: { soreness: 'warm-up-gone' } }, 'provoked'],
    ['sore in the warm-up, and it stays', { run: { soreness: 'warm-up-stayed' } }, 'flared'],
    ['went and came back', { run: { soreness: 'went-and-came-back' } }, 'flared'],
    ['sore more than an hour after', { run: { soreness: 'after' } }, 'provoked'],
    ['sore the next morning', { next: { morningPain: 1 } }, 'provoked'],
    ['sore later that day', { next: { worstPain: 1 } }, 'provoked'],
    [
      'what was felt in the run is not felt later again',
      { run: { painBefore: 2, painDuring: 2 }, next: { worstPain: 2 } },
      'settled',
    ],
    ['more swollen the next morning', { next: { swelling: 'yes' } }, 'provoked'],
    ['not sure of swelling on the second morning', { second: { swelling: 'not sure' } }, 'provoked'],
    ['straight after the run more than accepted', { run: { painAfter: 3 } }, 'provoked'],
    [
      'as much straight after as is accepted, and as in the run',
      { run: { painBefore: 2, painDuring: 2, painAfter: 2 }, next: { worstPain: 2 } },
      'settled',
    ],
    [
      'sore that morning as on the morning before: sore all the same',
      { before: { morningPain: 1, worstPain: 1 }, next: { morningPain: 1 } },
      'provoked',
    ],
    ['a little on the second morning is another day', { second: { worstPain: 2 } }, 'settled'],
    ['more than accepted on the second morning', { second: { worstPain: 3 } }, 'provoked'],
    ['the soreness question was not answered', { run: { soreness: undefined } }, 'unknown'],
    ['no answer the next morning', { next: null }, 'unknown'],
    [
      'soreness that stayed is read though the morning is missing',
      { run: { soreness: 'warm-up-stayed' }, next: null },
      'flared',
    ],
  ]
  for (const [title, told, expected] of rows)
    test(title, () => expect(bodyAfter(joint, told).response).toBe(expected))

  test('a run without a check-in that morning is measured against the pain before it', () => {
    const ada = athlete({ ...joint, settings: { morningMost: 1 } })
    ada.run('2026-03-02', { painBefore: 1, painDuring: 1 })
    ada.morning('2026-03-03', { morningPain: 1, worstPain: 1 })
    const [session] = ada.chart().sessions
    expect(session && respond(ada.chart(), session, '2026-03-03').response).toBe('settled')
  })

  test('looking back at the day of the run, the mornings after it are not known yet', () => {
    const told = { next: { morningPain: 1 }, second: { morningPain: 1 } }
    expect(bodyAfter(joint, told).response).toBe('provoked')
    const ada = athlete(joint)
    ada.live('2026-03-02', 1)
    ada.morning('2026-03-03')
    ada.morning('2026-03-04', { morningPain: 1 })
    const [session] = ada.chart().sessions
    const on = (day: string) => session && respond(ada.chart(), session, day).response
    expect([on('2026-03-02'), on('2026-03-03'), on('2026-03-04')]).toEqual(['unknown', 'settled', 'provoked'])
  })

  test('the run added pain: not up [capin-2018]', () => {
    expect(bodyAfter(joint, { run: { painBefore: 1, painDuring: 2 } }).response).toBe('provoked')
    expect(bodyAfter(joint, { run: { painBefore: 2, painDuring: 2 } }).response).toBe('settled')
  })

  test('above the lower cut it is read like soreness that stays (T7) [pain-model-page]', () => {
    const three = { run: { painBefore: 3, painDuring: 3 }, next: { worstPain: 3 } }
    expect(bodyAfter(joint, three)).toMatchObject({ response: 'flared', restUntil: '2026-03-04' })
    const wider = { ...joint, settings: { painDuringMost: 3, painAfterMost: 3 } } as const
    expect(bodyAfter(wider, three).response).toBe('settled')
  })

  test('days off: two after soreness that stayed, one after the next morning, counted from when it was told', () => {
    expect(bodyAfter(joint, { run: { soreness: 'warm-up-stayed' } }).restUntil).toBe('2026-03-04')
    expect(bodyAfter(joint, { run: { soreness: 'after' } }).restUntil).toBe('2026-03-03')
    expect(bodyAfter(joint, { next: { morningPain: 1 } }).restUntil).toBe('2026-03-03')
    expect(bodyAfter(joint, { second: { morningPain: 1 } }).restUntil).toBe('2026-03-04')
    expect(bodyAfter(joint, { next: { swelling: 'yes' } }).restUntil).toBe('2026-03-03')
    expect(bodyAfter(joint, { run: { soreness: 'warm-up-gone' } }).restUntil).toBeUndefined()
  })

  test('a joint that always aches a little is measured against the accepted morning, and a rise still counts', () => {
    const aches = { ...joint, settings: { morningMost: 1 } } as const
    const told = (next: number) => ({ before: { morningPain: 1, worstPain: 1 }, next: { morningPain: next } })
    expect(bodyAfter(aches, told(1)).response).toBe('settled')
    expect(bodyAfter(aches, told(2)).response).toBe('provoked')
    expect(bodyAfter(aches, { before: {}, next: { morningPain: 1 } }).response).toBe('provoked')
  })
})

describe('tendon: the pain-monitoring rule [silbernagel-2007]', () => {
  const ache = { morningPain: 2, worstPain: 4 }
  const rows: Row[] = [
    ['5 in the run is within the rule', { run: { painDuring: 5 } }, 'settled'],
    ['6 in the run is not', { run: { painDuring: 6 } }, 'flared'],
    ['5 straight after is within the rule', { run: { painAfter: 5 } }, 'settled'],
    ['6 straight after is not', { run: { painAfter: 6 } }, 'flared'],
    [
      'worse than 5 later that day has flared',
      { before: { worstPain: 4 }, next: { worstPain: 6 } },
      'flared',
    ],
    [
      '6 the next morning has flared',
      { before: { worstPain: 5, morningPain: 4 }, next: { worstPain: 5, morningPain: 6 } },
      'flared',
    ],
    ['as on every morning: settled', { before: ache, next: ache, second: ache }, 'settled'],
    [
      'one more than before the run: not settled',
      { before: ache, next: { ...ache, morningPain: 3 }, second: ache },
      'provoked',
    ],
    [
      'one more on the second morning: not settled',
      { before: ache, next: ache, second: { ...ache, morningPain: 3 } },
      'provoked',
    ],
    ['swelling', { next: { swelling: 'yes' } }, 'provoked'],
    ['no answer the next morning', { next: null }, 'unknown'],
    ['no answer on the second: it is watched for 48 hours', { second: null }, 'unknown'],
  ]
  for (const [title, told, expected] of rows)
    test(title, () => expect(bodyAfter(tendon, told).response).toBe(expected))

  test('up to 5 the next morning is a choice of the therapist, not the default', () => {
    const told = { before: { worstPain: 3 }, next: { worstPain: 4, morningPain: 4 }, second: {} }
    expect(bodyAfter(tendon, told).response).toBe('provoked')
    expect(bodyAfter({ ...tendon, settings: { morningRiseMost: 5 } }, told).response).toBe('settled')
  })

  test('the next day it is still within the 48 hours; with 24 it is known', () => {
    expect(bodyAfter(tendon, {}, '2026-03-03').response).toBe('unknown')
    expect(bodyAfter({ ...tendon, settings: { hoursWatched: 24 } }, {}, '2026-03-03').response).toBe(
      'settled',
    )
  })
})

describe('muscle: pain-free', () => {
  const rows: Row[] = [
    ['nothing at all', {}, 'settled'],
    ['1 in the run', { run: { painDuring: 1 } }, 'flared'],
    ['1 the next morning', { next: { morningPain: 1 } }, 'flared'],
    ['no answer', { next: null }, 'unknown'],
  ]
  for (const [title, told, expected] of rows)
    test(title, () => expect(bodyAfter(muscle, told).response).toBe(expected))

  test('a signed limit of 2 is a limit of 2', () => {
    const signed = { ...muscle, settings: { painDuringMost: 2, painAfterMost: 2 } } as const
    expect(bodyAfter(signed, { run: { painDuring: 2 }, next: { worstPain: 2 } }).response).toBe('settled')
    expect(bodyAfter(signed, { run: { painDuring: 3 } }).response).toBe('flared')
    expect(bodyAfter(signed, { next: { worstPain: 3 } }).response).toBe('flared')
    const only = { ...muscle, settings: { painDuringMost: 2 } } as const
    expect(bodyAfter(only, { run: { painDuring: 2 }, next: { worstPain: 2 } }).response).toBe('settled')
    expect(bodyAfter(only, { run: { painDuring: 2, painAfter: 1 } }).response).toBe('flared')
  })
})

test('every answer says what it was found from, and in which source', () => {
  expect(bodyAfter(bone, { run: { painDuring: 2 } }).because).toEqual({
    finding: 'response-flared',
    words: 'Pain 2 of 10 during the run on 2026-03-02.',
    source: 'vincent-2022',
  })
  expect(bodyAfter(joint, { run: { soreness: 'warm-up-stayed' } }).because.source).toBe(
    'white-soreness-effusion',
  )
  expect(bodyAfter(tendon, {}).because.source).toBe('silbernagel-2007')
})
