import type { KnownBlock } from '@slack/types'
import { nameOf } from '../chart/roster.ts'
import { callListFor } from '../rules/call-list.ts'
import { escaped, section } from './blocks.ts'
import { chartsFor } from './caseload.ts'
import type { At } from './door.ts'

/** The order of calls about each athlete; the same order is said once. */
export async function callLists(at: At): Promise<KnownBlock[]> {
  const team = await at.doorway.desk.team()
  const now = at.doorway.desk.clock.now()
  const orders = new Map<string, string[]>()
  for (const chart of await chartsFor(at, 'see-call-list')) {
    if (!chart.enrolment) continue
    const list = callListFor(chart, 'emergency', team, now).map((callee) => nameOf(team, callee.person))
    const order = list.join(', then ')
    orders.set(order, [...(orders.get(order) ?? []), nameOf(team, chart.athlete)])
  }
  if (orders.size === 0) return [section('Nobody is enrolled yet.')]
  return [...orders].map(([order, names]) =>
    section(`*${escaped(order)}*\nabout ${escaped(names.join(', '))}`),
  )
}
