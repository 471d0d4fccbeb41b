import type { Option } from '@slack/types'
import { z } from 'zod'
import type { Person, Team } from '../chart/roster.ts'
import { takesCalls } from '../rules/rota.ts'
import { type Modal, modal, option, section } from './blocks.ts'
import { clinicScreen } from './clinic.ts'
import { dayPicker, lineInput, radioFrom, selectFrom } from './pickers.ts'
import { reads } from './reading.ts'

const whys = [
  option('holiday', 'Holiday'),
  option('hand-over', 'Hand-over'),
  option('other', 'Something else'),
]

/** Somebody is away and somebody stands in. Whoever goes away names their own cover; the clinic lead anybody's. */
export function coverModal(team: Team, by: Person): Modal {
  const isLead = by.roles.includes('clinic-lead')
  return modal({ door: 'cover', title: 'Hand over for days', submit: 'Save', about: {} }, [
    section('Calls and the whole caseload go to whoever stands in, first and last day included.'),
    ...(isLead ? [selectFrom({ name: 'person', label: 'Who is away' }, callTakers(team), by.id)] : []),
    selectFrom({ name: 'coveredBy', label: 'Who stands in' }, callTakers(team)),
    ...rangePickers,
    radioFrom({ name: 'why', label: 'Why' }, whys, 'holiday'),
  ])
}

export function onCallModal(team: Team): Modal {
  return modal({ door: 'on-call', title: 'On call', submit: 'Save', about: {} }, [
    section('Outside working hours an urgent call goes to whoever is on call.'),
    selectFrom({ name: 'person', label: 'Who' }, callTakers(team)),
    ...rangePickers,
  ])
}

export function closedModal(): Modal {
  return modal({ door: 'closed', title: 'The clinic is closed', submit: 'Save', about: {} }, [
    ...rangePickers,
    lineInput({ name: 'words', label: 'Why' }),
  ])
}

const rangePickers = [
  dayPicker({ name: 'from', label: 'First day' }),
  dayPicker({ name: 'until', label: 'Last day' }),
]

export const coverRead = reads(z.object({}), async (at, form) => ({
  hands: [
    {
      kind: 'cover',
      person: form.choice('person') ?? at.person.id,
      coveredBy: form.choice('coveredBy'),
      from: form.day('from'),
      until: form.day('until'),
      why: form.choice('why'),
    },
  ],
  under: () => clinicScreen(at),
}))

export const onCallRead = reads(z.object({}), async (at, form) => ({
  hands: [
    { kind: 'on-call', person: form.choice('person'), from: form.day('from'), until: form.day('until') },
  ],
  under: () => clinicScreen(at),
}))

export const closedRead = reads(z.object({}), async (at, form) => ({
  hands: [
    { kind: 'closed', from: form.day('from'), until: form.day('until'), words: form.text('words') ?? '' },
  ],
  under: () => clinicScreen(at),
}))

function callTakers(team: Team): Option[] {
  return [...team.roster.people.values()].filter(takesCalls).map(({ id, name }) => option(id, name))
}
