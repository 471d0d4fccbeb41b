import { type Instant, minutesBetween, plusMinutes } from '../chart/day.ts'
import { clearedLines, type Desk } from './desk.ts'
import { type Delivery, isStoreTrouble, type Outcome, type Queued, type Receipt, type Told } from './ports.ts'
import { writeReceipt } from './receipts.ts'

/** While one process holds a notice, no other takes it up. */
const leaseMinutes = 2
/** What is still in doubt after so long is written down as missed: nothing waits behind it for ever. */
const doubtMinutes = 12 * 60

/**
 * Sends what may be sent now at the platform's pace, and writes down what became of it. A try without an answer is
 * looked for before it is sent again; only a call is sent again when in doubt, because a duplicate beats silence.
 * `only` calls: for whoever must not wait until something slow has ended. Returns how many it took up.
 */
export async function emptyOutbox(desk: Desk, only?: 'calls'): Promise<number> {
  let taken = 0
  for (;;) {
    const now = desk.clock.now()
    const { most, resting } = desk.pace.allowance(now)
    const passedOver = only === 'calls' ? 'all but calls' : resting
    const queued = await desk.store.claim(now, plusMinutes(now, leaseMinutes), most, passedOver)
    if (queued.length === 0) return taken
    taken += queued.length
    for (const { notice } of queued) desk.pace.count(notice, now)
    await Promise.all(queued.map((one) => deliver(desk, one).catch((error) => leave(desk, one, error))))
  }
}

/** When the outbox may next have something to send: a try that is due, or the end of a rest; null when nothing waits. */
export async function nextSending({ store, pace, clock }: Desk): Promise<Instant | null> {
  const now = clock.now()
  const next = await store.nextTry(pace.allowance(now).resting)
  const endOfRest = (await store.waiting()) > 0 ? pace.endOfRest(now) : undefined
  return [next, endOfRest].filter((at) => typeof at === 'string').toSorted()[0] ?? null
}

async function deliver(desk: Desk, { notice, tries, unknown }: Queued): Promise<void> {
  const now = desk.clock.now()
  const settle = (outcome: Outcome) => desk.store.settle(notice.key, outcome)
  if (notice.useBy && notice.useBy <= now) return settle({ missed: 'too late to be of use', at: now })
  const told = await toldOf(desk, notice, now)
  const later = told.receipt && desk.pace.updateAt(notice.key, now)
  if (later) return settle({ retryAt: later, why: 'paced', unknown })
  const delivery = unknown ? await lookThenDeliver(desk, told) : await desk.face.deliver(told)
  desk.pace.heard(delivery, desk.clock.now())
  if ('sent' in delivery) return taken(desk, told, delivery.sent)
  desk.report('not-delivered', { key: notice.key, why: delivery.failed, tries: tries + 1 })
  if (delivery.outcome === 'never') {
    await writeReceipt(desk, notice, { kind: 'call-failed', words: delivery.failed })
    return settle({ missed: delivery.failed, at: now })
  }
  const retryAt = retryAfter(now, tries, delivery.retryAfterSeconds)
  return settle({ retryAt, why: delivery.failed, unknown: delivery.outcome === 'unknown' || unknown })
}

/** The store would not say what the chart says, or keep what became of it: it is taken up again when the lease is over. */
function leave(desk: Desk, { notice }: Queued, error: unknown): void {
  if (!isStoreTrouble(error)) throw error
  desk.report('not-settled', { key: notice.key, why: error.words })
}

/** Of a call its chart learns that it was sent, and, once it was looked for and found, that it was delivered. */
async function taken(desk: Desk, told: Told, sent: Receipt): Promise<void> {
  const { notice } = told
  await writeReceipt(desk, notice, { kind: 'call-sent' })
  await desk.store.settle(notice.key, { sent, at: desk.clock.now() })
  if (notice.kind !== 'call') return
  const found = await desk.face.find(told)
  if (typeof found === 'object') await writeReceipt(desk, notice, { kind: 'call-delivered' })
}

async function lookThenDeliver(desk: Desk, told: Told): Promise<Delivery> {
  const found = await desk.face.find(told)
  if (typeof found === 'object') return { sent: found }
  if (found === 'absent' || told.notice.kind === 'call') return desk.face.deliver(told)
  const { queuedAt, notBefore = queuedAt } = told.notice
  const outcome = minutesBetween(notBefore, told.now) < doubtMinutes ? 'unknown' : 'never'
  return { failed: 'not sure whether it went out', outcome }
}

async function toldOf(desk: Desk, notice: Queued['notice'], now: Instant): Promise<Told> {
  const team = await desk.team()
  return {
    notice,
    team,
    now,
    chart: notice.athlete === undefined ? undefined : await desk.charts.read(notice.athlete),
    list: notice.kind === 'list' ? await clearedLines(desk, team) : [],
    receipt: notice.surface === undefined ? undefined : await desk.store.receipt(notice.surface),
  }
}

/** What the platform asks for, else 5 s, 10 s, 20 s ... up to five minutes. */
function retryAfter(now: Instant, tries: number, seconds?: number): Instant {
  return plusMinutes(now, (seconds ?? Math.min(300, 5 * 2 ** tries)) / 60)
}
