import type { Person } from '../chart/roster.ts'
import { nameOf } from '../chart/roster.ts'
import { callListFor } from '../rules/call-list.ts'
import { notYours } from '../rules/permissions.ts'
import { context, escaped, section } from './blocks.ts'
import { chartsFor } from './caseload.ts'
import type { Doorway } from './door.ts'
import type { Shown } from './shown.ts'

/** Who is called, in order, about each athlete; the same order is said once. */
export async function showCover(doorway: Doorway, person: Person, _said: string): Promise<Shown> {
  if (!person.roles.some((role) => role === 'therapist' || role === 'clinic-lead'))
    return { text: escaped(notYours('see-call-list').words) }
  const { desk } = doorway
  const team = await desk.team()
  const orders = new Map<string, string[]>()
  for (const chart of await chartsFor({ doorway, person }, 'see-call-list')) {
    if (!chart.enrolment) continue
    const list = callListFor(chart, 'emergency', team).map((callee) => nameOf(team, callee.person))
    const order = list.join(', then ')
    orders.set(order, [...(orders.get(order) ?? []), nameOf(team, chart.athlete)])
  }
  const rows = [...orders].map(([order, names]) =>
    section(`*${escaped(order)}*\nabout ${escaped(names.join(', '))}`),
  )
  const { lastResort, calls } = team.clinic
  return {
    text: 'Who answers calls.',
    blocks: [
      section('*Who is called, in this order, until one answers*'),
      ...(rows.length > 0 ? rows.slice(0, 40) : [section('Nobody is enrolled yet.')]),
      context(
        `An emergency goes on to the next after ${calls.emergency.ackWithinMinutes} min, an urgent call after ${calls.urgent.ackWithinMinutes} min. Last resort: ${escaped(nameOf(team, lastResort.person))}, ${escaped(lastResort.phone)}.`,
      ),
    ],
  }
}
