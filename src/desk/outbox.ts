import { type Instant, plusMinutes } from '../chart/day.ts'
import { clearedLines, type Desk } from './desk.ts'
import type { Delivery, Outcome, Queued, Receipt, Told } from './ports.ts'
import { writeReceipt } from './receipts.ts'

/** While one process holds a notice, no other takes it up. */
const leaseMinutes = 2
const atOnce = 8

/**
 * Sends what may be sent now, and writes down what became of it. A try without an answer is looked for before it is
 * sent again; only a call is sent again when in doubt, because a duplicate beats silence. Returns how many it took up.
 */
export async function emptyOutbox(desk: Desk): Promise<number> {
  let taken = 0
  for (;;) {
    const now = desk.clock.now()
    const queued = await desk.store.claim(now, plusMinutes(now, leaseMinutes), atOnce)
    if (queued.length === 0) return taken
    taken += queued.length
    await Promise.all(queued.map((one) => deliver(desk, one)))
  }
}

async function deliver(desk: Desk, { notice, tries, unknown }: Queued): Promise<void> {
  const now = desk.clock.now()
  const settle = (outcome: Outcome) => desk.store.settle(notice.key, outcome)
  if (notice.useBy && notice.useBy <= now) return settle({ missed: 'too late to be of use', at: now })
  const told = await toldOf(desk, notice, now)
  const delivery = unknown ? await lookThenDeliver(desk, told) : await desk.face.deliver(told)
  if ('sent' in delivery) return taken(desk, told, delivery.sent)
  desk.report('not-delivered', { key: notice.key, why: delivery.failed, tries: tries + 1 })
  if (delivery.outcome === 'never') {
    await writeReceipt(desk, notice, { kind: 'call-failed', words: delivery.failed })
    return settle({ missed: delivery.failed, at: now })
  }
  const retryAt = retryAfter(now, tries, delivery.retryAfterSeconds)
  return settle({ retryAt, why: delivery.failed, unknown: delivery.outcome === 'unknown' || unknown })
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
  if (found === 'unsure' && told.notice.kind !== 'call')
    return { failed: 'not sure whether it went out', outcome: 'unknown' }
  return desk.face.deliver(told)
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
