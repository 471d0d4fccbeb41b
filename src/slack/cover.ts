import { nameOf, type Person } from '../chart/roster.ts'
import { notYours } from '../rules/permissions.ts'
import { buttons, context, escaped, section } from './blocks.ts'
import { callLists } from './call-lists.ts'
import { clinicScreen } from './clinic.ts'
import type { Doorway } from './door.ts'
import { rotaInWords } from './rota-lines.ts'
import type { Shown } from './shown.ts'

/** Who answers calls; for the clinic lead the whole clinic, its call lists among it. */
export async function showCover(doorway: Doorway, person: Person, _said: string): Promise<Shown> {
  if (!person.roles.some((role) => role === 'therapist' || role === 'clinic-lead'))
    return { text: escaped(notYours('see-call-list').words) }
  if (person.roles.includes('clinic-lead')) return { modal: await clinicScreen({ doorway, person }) }
  const team = await doorway.desk.team()
  const { lastResort, calls } = team.clinic
  return {
    text: 'Who answers calls.',
    blocks: [
      section('*Who is called, in this order, until one answers*'),
      ...(await callLists({ doorway, person })).slice(0, 40),
      section(`*Away, on call, closed*\n${rotaInWords(team, doorway.desk.clock.now())}`),
      buttons({ does: 'open-cover', label: 'I am away: hand over for days', value: '{}' }),
      context(
        `An emergency goes on to the next after ${calls.emergency.ackWithinMinutes} min, an urgent call after ${calls.urgent.ackWithinMinutes} min. Last resort: ${escaped(nameOf(team, lastResort.person))}, ${escaped(lastResort.phone)}.`,
      ),
    ],
  }
}
