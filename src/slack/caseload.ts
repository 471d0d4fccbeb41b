import type { KnownBlock } from '@slack/types'
import type { Chart } from '../chart/chart.ts'
import { nameOf, type Team } from '../chart/roster.ts'
import { allCharts } from '../desk/desk.ts'
import { type CaseLine, caseload } from '../rules/caseload.ts'
import { type Door, may } from '../rules/permissions.ts'
import { context, escaped, type Modal, screen, section } from './blocks.ts'
import { type At, callerNow } from './door.ts'
import { lineWithButton } from './pickers.ts'

const mostShown = 90

/** Everybody whom this therapist treats, covers or is called about, what is most urgent first. */
export async function caseloadScreen(at: At): Promise<Modal> {
  const { desk } = at.doorway
  const team = await desk.team()
  const lines = caseload(await chartsFor(at, 'see-chart'), team, desk.clock.now())
  const rows = lines.slice(0, mostShown).map((line) => caseRow(line, team))
  const more = lines.length - rows.length
  return screen({ door: 'caseload', title: 'Caseload', about: {} }, [
    ...(rows.length > 0
      ? rows
      : [section(`Nobody is on your caseload. Enrol an athlete with ${at.doorway.typed('/enrol')}.`)]),
    ...(more > 0 ? [section(`and ${more} more: ${at.doorway.typed('/chart')} with the name`)] : []),
    context('Open calls first, then holds, missing answers, reviews due, lapsing clearances, requests.'),
  ])
}

/** What is due leads straight to where it is done. */
export function caseRow({ athlete, words, wants }: CaseLine, team: Team): KnownBlock {
  const leads =
    wants === 'review due' ? { does: 'open-review', label: 'Review' } : { does: 'open-chart', label: 'Open' }
  const value = JSON.stringify({ athlete })
  return lineWithButton(`*${escaped(nameOf(team, athlete))}*: ${escaped(words)}`, { ...leads, value })
}

/** The charts that this person may use a door on. */
export async function chartsFor({ doorway, person }: At, door: Door): Promise<Chart[]> {
  const caller = await callerNow(doorway, person)
  return (await allCharts(doorway.desk)).filter((chart) => may(caller, door, chart))
}
