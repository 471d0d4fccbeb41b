import type { KnownBlock } from '@slack/types'
import { nameOf } from '../chart/roster.ts'
import { escaped, header, type Modal, screen, section } from './blocks.ts'
import { chartsFor } from './caseload.ts'
import type { At } from './door.ts'
import { lineWithButton } from './pickers.ts'

const mostShown = 45

/** Whose exercises this person may log, one button each: the one thing that a strength coach writes. */
export async function exerciseSquad(at: At): Promise<KnownBlock[]> {
  const team = await at.doorway.desk.team()
  const charts = await chartsFor(at, 'exercise-done')
  const rows = charts
    .map(({ athlete }) => ({ athlete, name: nameOf(team, athlete) }))
    .toSorted((a, b) => a.name.localeCompare(b.name))
    .slice(0, mostShown)
    .map(({ athlete, name }) =>
      lineWithButton(`*${escaped(name)}*`, {
        does: 'open-exercise',
        label: 'Log exercises',
        value: JSON.stringify({ athlete }),
      }),
    )
  const more = charts.length - rows.length
  return [
    header('Exercises'),
    ...(rows.length > 0
      ? rows
      : [section('No athlete who trains with you has agreed to share. Ask the treating therapist.')]),
    ...(more > 0 ? [section(`and ${more} more, who log their exercises themselves`)] : []),
  ]
}

export async function squadScreen(at: At): Promise<Modal> {
  return screen({ door: 'squad', title: 'Log exercises', about: {} }, await exerciseSquad(at))
}
