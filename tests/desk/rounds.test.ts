import { describe, expect, test } from 'vitest'
import { openDesk } from '../../src/desk/desk.ts'
import { emptyOutbox } from '../../src/desk/outbox.ts'
import { type Store, StoreClosed } from '../../src/desk/ports.ts'
import { makeRounds } from '../../src/desk/rounds.ts'
import { type DeskAtWork, kindsIn, morning, openDeskAtWork } from './desk.ts'

describe('the morning question', () => {
  test("comes at the athlete's own half past six and not a minute before", async () => {
    const at = await openDeskAtWork(['joran'])
    await roundAt(at, '2026-03-16T07:29:00.000Z')
    expect(promptsTo(at, 'joran')).toBe(0)
    await roundAt(at, '2026-03-16T07:30:00.000Z')
    expect(promptsTo(at, 'joran')).toBe(1)
  })

  test('comes once a day, however many rounds are made', async () => {
    const at = await openDeskAtWork()
    for (const minute of ['30', '31', '32', '45']) await roundAt(at, `2026-03-16T06:${minute}:00.000Z`)
    expect(promptsTo(at, 'mika')).toBe(1)
  })

  test('is not asked of somebody enrolled today', async () => {
    const at = await openDeskAtWork()
    await roundAt(at, '2026-03-15T12:00:00.000Z')
    expect(promptsTo(at, 'mika')).toBe(0)
  })

  test('without an answer by the cut-off is written down as missed, and not a minute before', async () => {
    const at = await openDeskAtWork()
    await roundAt(at, '2026-03-16T06:30:00.000Z')
    await roundAt(at, '2026-03-16T09:29:00.000Z')
    expect(await kindsIn(at.desk, 'mika')).not.toContain('check-in-missed')
    await roundAt(at, '2026-03-16T09:30:00.000Z')
    expect(await kindsIn(at.desk, 'mika')).toContain('check-in-missed')
  })

  test('that could not be asked because the bot was down is not held against the athlete', async () => {
    const at = await openDeskAtWork()
    await roundAt(at, '2026-03-16T14:00:00.000Z')
    const chart = await at.desk.charts.read('mika')
    expect(promptsTo(at, 'mika')).toBe(0)
    expect(chart.missed.get('2026-03-16')?.asked).toBe(false)
  })

  test('answered late, after the cut-off, is still an answer', async () => {
    const at = await openDeskAtWork()
    await roundAt(at, '2026-03-16T06:30:00.000Z')
    await roundAt(at, '2026-03-16T09:30:00.000Z')
    await at.submit('mika', morning('mika', '2026-03-16'))
    expect((await kindsIn(at.desk, 'mika')).slice(-2)).toEqual(['check-in', 'prescription'])
  })
})

describe('a call that nobody acknowledges', () => {
  const flagged = { worstPain: 2, signs: { always: [], bone: ['bone-pain-at-night', 'sore-spot'] } }

  async function called(): Promise<DeskAtWork> {
    const at = await openDeskAtWork()
    await roundAt(at, '2026-03-16T06:30:00.000Z')
    await at.submit('mika', morning('mika', '2026-03-16', flagged))
    await emptyOutbox(at.desk)
    return at
  }

  test('stays with the therapist until the time to acknowledge has run out', async () => {
    const at = await called()
    await roundAt(at, '2026-03-16T07:29:59.000Z')
    expect(callsTo(at)).toEqual(['iben'])
  })

  test('goes to the cover when it has, then to the clinic lead, then starts again', async () => {
    const at = await called()
    for (const hour of ['07', '08', '09']) await roundAt(at, `2026-03-16T${hour}:30:00.000Z`)
    expect(callsTo(at)).toEqual(['iben', 'ravi', 'sunniva', 'iben'])
  })

  test('goes on only once for a round that is made twice', async () => {
    const at = await called()
    await roundAt(at, '2026-03-16T07:30:00.000Z')
    await roundAt(at, '2026-03-16T07:30:00.000Z')
    expect(callsTo(at)).toEqual(['iben', 'ravi'])
  })

  test('stops when somebody has it', async () => {
    const at = await called()
    await at.submit('ravi', {
      kind: 'call-acknowledged',
      athlete: 'mika',
      escalation: 'escalation/check-in/mika/2026-03-16',
    })
    await roundAt(at, '2026-03-16T12:00:00.000Z')
    expect(callsTo(at)).toEqual(['iben'])
  })

  test('leaves the athlete without a running prescription, the next morning too', async () => {
    const at = await called()
    await roundAt(at, '2026-03-17T06:30:00.000Z')
    await at.submit('mika', morning('mika', '2026-03-17'))
    const chart = await at.desk.charts.read('mika')
    expect(chart.prescriptions.map((p) => p.what)).toEqual(['rest'])
  })
})

test("the coaches' list is posted once each morning at the clinic's hour", async () => {
  const at = await openDeskAtWork()
  await roundAt(at, '2026-03-16T08:29:00.000Z')
  const before = lists(at)
  await roundAt(at, '2026-03-16T08:30:00.000Z')
  await roundAt(at, '2026-03-16T08:31:00.000Z')
  expect(lists(at) - before).toBe(1)
})

async function roundAt({ desk, clock }: DeskAtWork, instant: string): Promise<void> {
  if (instant > clock.now()) clock.pushTo(instant)
  await makeRounds(desk)
  await emptyOutbox(desk)
}

function promptsTo({ face }: DeskAtWork, athlete: string): number {
  return face.told.filter((notice) => notice.kind === 'prompt' && notice.athlete === athlete).length
}

function callsTo({ face }: DeskAtWork): string[] {
  return face.told
    .filter((notice) => notice.kind === 'call')
    .map((notice) => ('person' in notice.to ? notice.to.person : ''))
}

function lists({ face }: DeskAtWork): number {
  return face.told.filter((notice) => notice.kind === 'list').length
}

test('a chart that the store has closed keeps nobody else from being asked', async () => {
  const at = await openDeskAtWork(['mika', 'adaeze'])
  const store: Store = {
    ...at.store,
    commit: (commit) =>
      commit.subject === 'mika'
        ? Promise.reject(new StoreClosed('The disk failed.'))
        : at.store.commit(commit),
  }
  const said: string[] = []
  const desk = openDesk({
    ...at.desk,
    store,
    report: (event, { chart = '' }) => said.push(`${event} ${chart}`),
  })
  at.clock.pushTo('2026-03-16T06:30:00.000Z')
  await makeRounds(desk)
  await emptyOutbox(desk)
  expect(promptsTo(at, 'adaeze')).toBe(1)
  expect(said).toContain('chart-closed mika')
})
