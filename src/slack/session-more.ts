import { z } from 'zod'
import { dayAt } from '../chart/day.ts'
import type { Person } from '../chart/roster.ts'
import type { Doorway } from './door.ts'
import { aboutFrom } from './form.ts'
import { type Pressed, refuse } from './pressed.ts'
import { sessionModal } from './session.ts'

const OfDay = z.object({ athlete: z.string(), day: z.string() })

/** The same form with the fields that are seldom needed. */
export async function showMore(doorway: Doorway, person: Person, pressed: Pressed): Promise<void> {
  const { body, client } = pressed
  const of = aboutFrom(OfDay, body.view?.private_metadata)
  if ('refused' in of) return refuse(pressed, of)
  const chart = await doorway.desk.charts.read(person.id)
  if (
    of.athlete !== person.id ||
    !chart.enrolment ||
    of.day > dayAt(doorway.desk.clock.now(), chart.enrolment.timeZone)
  )
    return refuse(pressed, { refused: 'not-yours', words: 'You log your own runs only.' })
  await pressed.ack()
  const { view } = body
  if (view)
    await client.views.update({ view_id: view.id, hash: view.hash, view: sessionModal(chart, of.day, true) })
}
