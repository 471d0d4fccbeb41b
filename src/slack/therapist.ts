import { nameOf, type Person, type Team } from '../chart/roster.ts'
import { type Door, may, notYours } from '../rules/permissions.ts'
import { escaped } from './blocks.ts'
import { caseModal } from './case.ts'
import { caseloadScreen } from './caseload.ts'
import { chartScreen } from './chart.ts'
import { callerNow, type Doorway } from './door.ts'
import { enrolModal } from './enrol.ts'
import { personNamed } from './named.ts'
import { planModal } from './plan.ts'
import type { Shown } from './shown.ts'
import { whyMessage } from './why.ts'

/** The caseload, or the chart of whoever is named. */
export async function openChart(doorway: Doorway, person: Person, said: string): Promise<Shown> {
  if (!person.roles.includes('therapist')) return refusal('see-chart')
  const team = await doorway.desk.team()
  const named = personNamed(said, team)
  if (!named) return { modal: await caseloadScreen({ doorway, person }) }
  if ('refused' in named) return { text: escaped(named.words) }
  const chart = await doorway.desk.charts.read(named.id)
  if (!may(await callerNow(doorway, person), 'see-chart', chart))
    return elsewhere(chart.enrolment?.therapist, team, doorway.typed('/enrol'))
  return { modal: await chartScreen({ doorway, person }, chart) }
}

/** The first form of an enrolment; for somebody who is named, the first that is still missing. */
export async function openEnrol(doorway: Doorway, person: Person, said: string): Promise<Shown> {
  if (!person.roles.includes('therapist')) return refusal('enrolment')
  const { desk } = doorway
  const team = await desk.team()
  const named = personNamed(said, team)
  if (!named) return { modal: enrolModal(team, person) }
  if ('refused' in named) return { text: escaped(named.words) }
  const chart = await desk.charts.read(named.id)
  const known = chart.enrolment && may(await callerNow(doorway, person), 'episode', chart)
  if (known && !chart.episode)
    return { modal: caseModal(chart, desk.library, 'on the way', nameOf(team, named.id)) }
  if (known && !chart.plan)
    return { modal: planModal(chart, desk.library, 'on the way', nameOf(team, named.id)) }
  const seen = chart.enrolment && may(await callerNow(doorway, person), 'see-chart', chart)
  return { modal: enrolModal(team, person, named, seen ? chart.enrolment : undefined) }
}

/** Why today is as it is: one's own, or that of an athlete on one's caseload. */
export async function showWhy(doorway: Doorway, person: Person, said: string): Promise<Shown> {
  const { desk } = doorway
  const team = await desk.team()
  const named = personNamed(said, team)
  if (named && 'refused' in named) return { text: escaped(named.words) }
  if (!named && !person.roles.includes('athlete'))
    return person.roles.includes('therapist')
      ? { text: `About whom? Write ${doorway.typed('/why')} and mention the athlete.` }
      : refusal('see-why')
  const chart = await desk.charts.read(named?.id ?? person.id)
  if (!may(await callerNow(doorway, person), 'see-why', chart)) return refusal('see-why')
  return whyMessage(chart, person.id, team, desk.clock.now())
}

function refusal(door: Door): Shown {
  return { text: escaped(notYours(door).words) }
}

function elsewhere(therapist: string | undefined, team: Team, enrol: string): Shown {
  return therapist
    ? { text: `This athlete is treated by ${escaped(nameOf(team, therapist))}. Please ask there.` }
    : { text: `This person is not enrolled. Enrol with ${enrol}.` }
}
