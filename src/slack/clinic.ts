import type { KnownBlock } from '@slack/types'
import type { Instant } from '../chart/day.ts'
import { nameOf, type Team } from '../chart/roster.ts'
import { missingFor } from '../rules/set-up.ts'
import { buttons, context, escaped, header, type Modal, screen, section } from './blocks.ts'
import { callLists } from './call-lists.ts'
import type { At } from './door.ts'
import { lineWithButton } from './pickers.ts'
import { rotaLines } from './rota-lines.ts'

const mostPeople = 60
const mostRota = 10

/** The clinic lead's own screen: what is missing, who is who, who is called, what is set. */
export async function clinicScreen(at: At): Promise<Modal> {
  const team = await at.doorway.desk.team()
  return screen({ door: 'clinic', title: 'The clinic', about: {} }, [
    missingBlock(team),
    buttons(
      { does: 'open-person', label: 'Add a person', value: '{}', main: true },
      { does: 'open-channel', label: "Coaches' channel", value: '{}' },
      { does: 'open-figures', label: 'Figures', value: '{}' },
      { does: 'open-audit', label: 'Audit trail', value: '{}' },
    ),
    header('People and roles'),
    ...people(team),
    header('Who answers calls'),
    ...(await callLists(at)).slice(0, 10),
    header('Away, on call, closed'),
    buttons(
      { does: 'open-cover', label: 'Hand over for days', value: '{}' },
      { does: 'open-on-call', label: 'On call', value: '{}' },
      { does: 'open-closed', label: 'Closed days', value: '{}' },
    ),
    ...rota(team, at.doorway.desk.clock.now()),
    header('Settings'),
    section(settingsInWords(team)),
    buttons({ does: 'open-settings', label: 'Tighten settings', value: '{}' }),
    context('Settings stand in shared/clinic.json; they can be tightened here and never loosened past it.'),
  ])
}

export function missingBlock(team: Team): KnownBlock {
  const missing = missingFor(team)
  if (missing.length === 0) return section('The clinic is set up: athletes can be enrolled.')
  return section(
    `*Not set up yet: no athlete is written to.* Missing:\n${missing.map((one) => `• ${escaped(one)}`).join('\n')}`,
  )
}

function people({ roster }: Team): KnownBlock[] {
  const all = [...roster.people.values()]
  const rows = all
    .slice(0, mostPeople)
    .map((person) =>
      lineWithButton(
        `*${escaped(person.name)}* (${person.id}): ${person.roles.join(', ')}, ${escaped(person.timeZone)}${person.active ? '' : ', gone'}`,
        { does: 'open-person', label: 'Change', value: JSON.stringify({ person: person.id }) },
      ),
    )
  const more = all.length - rows.length
  return more > 0
    ? [...rows, section(`and ${more} more; "Add a person" with their account changes them`)]
    : rows
}

function rota(team: Team, now: Instant): KnownBlock[] {
  const lines = rotaLines(team, now).slice(0, mostRota)
  if (lines.length === 0) return [section('Nobody is away.')]
  return lines.map(({ id, words }) =>
    lineWithButton(words, { does: 'withdraw', label: 'Withdraw', value: JSON.stringify({ withdraws: id }) }),
  )
}

function settingsInWords(team: Team): string {
  const { clinic } = team
  const { emergency, urgent } = clinic.calls
  return [
    `Time zone ${escaped(clinic.timeZone)}, list at ${clinic.listAt}, quiet from ${clinic.quietHours.from} to ${clinic.quietHours.until}.`,
    `Emergency calls go on after ${emergency.ackWithinMinutes} min, urgent ones after ${urgent.ackWithinMinutes} min.`,
    `An open check-in is reminded of once, ${clinic.checkIn.remindAfterMinutes} min after the prompt; a missing one is written down ${clinic.checkIn.cutOffAfterMinutes} min after the prompt.`,
    `Last resort: ${escaped(nameOf(team, clinic.lastResort.person))}, ${escaped(clinic.lastResort.phone)}. Emergency number: ${escaped(clinic.emergencyNumber)}.`,
  ].join('\n')
}
