import { z } from 'zod'
import { type Person, Role, type Team } from '../chart/roster.ts'
import type { Refusal } from '../rules/decision.ts'
import { type Modal, modal, option } from './blocks.ts'
import { clinicScreen } from './clinic.ts'
import type { Form } from './form.ts'
import { boxesFrom, channelPicker, lineInput, personPicker, radioFrom } from './pickers.ts'
import { reads } from './reading.ts'

export const roleWords: Record<Role, string> = {
  athlete: 'Athlete',
  coach: 'Coach',
  'strength-coach': 'Strength coach',
  therapist: 'Therapist',
  'clinic-lead': 'Clinic lead',
}

/** Somebody of the clinic: account, name, roles, zone, and whether they still work here. */
export function personModal(team: Team, before?: Person): Modal {
  return modal({ door: 'person', title: 'A person', submit: 'Save', about: {} }, [
    personPicker({ name: 'account', label: 'Account in this workspace' }, before?.chatUser),
    lineInput({ name: 'name', label: 'Name', initial: before?.name, most: 80 }),
    ...(before
      ? []
      : [
          lineInput({
            name: 'id',
            label: 'Short name in the record',
            hint: `Small letters and digits, kept for ever. Left empty it is made of the name. The last resort in clinic.json is "${team.clinic.lastResort.person}".`,
            optional: true,
            most: 60,
          }),
        ]),
    boxesFrom(
      { name: 'roles', label: 'Roles' },
      Role.options.map((role) => option(role, roleWords[role])),
      before?.roles,
    ),
    lineInput({
      name: 'timeZone',
      label: 'Time zone',
      hint: 'Such as Europe/Lisbon. Left empty: that of the account.',
      optional: true,
      initial: before?.timeZone,
    }),
    radioFrom(
      { name: 'active', label: 'Works or trains here' },
      [option('yes', 'Yes'), option('no', 'No: is told nothing and refused everywhere, stays in the record')],
      before?.active === false ? 'no' : 'yes',
    ),
  ])
}

export const personRead = reads(z.object({}), async (at, form) => {
  const { desk, accounts } = at.doorway
  const team = await desk.team()
  const account = form.account('account') ?? ''
  const seen = await accounts.look(account, desk.clock.now())
  if (!seen && form.choice('active') === 'yes')
    return { refused: 'not-now', words: 'The workspace cannot tell who this is now.', field: 'account' }
  if (seen && seen.standing !== 'member' && form.choice('active') === 'yes')
    return { refused: 'outsider', words: 'Members of this workspace only: no guests.', field: 'account' }
  const person = personFrom(form, account, team, seen?.timeZone)
  if ('refused' in person) return person
  return { hands: [{ kind: 'person', person }], under: () => clinicScreen(at) }
})

function personFrom(form: Form, account: string, team: Team, zone: string | undefined): object | Refusal {
  const before = team.roster.byAccount.get(account)
  const name = form.text('name')?.trim() ?? ''
  const wanted = form.text('id')?.trim()
  const id = before?.id ?? (wanted || idFor(name, team))
  if (!before && team.roster.people.has(id))
    return { refused: 'taken', words: `"${id}" is somebody else already.`, field: 'id' }
  return {
    ...before,
    id,
    name,
    roles: form.choices('roles'),
    chatUser: account,
    timeZone: form.text('timeZone')?.trim() || zone || team.clinic.timeZone,
    active: form.choice('active') === 'yes',
  }
}

/** "Ådne Løkke" -> `adne-lkke`; a number behind it when somebody else has that already. */
export function idFor(name: string, team: Team): string {
  const slug =
    name
      .normalize('NFKD')
      .toLowerCase()
      .replaceAll(/\p{M}/gu, '')
      .replaceAll(/[^a-z0-9]+/g, '-')
      .replaceAll(/^-+|-+$/g, '')
      .slice(0, 50) || 'person'
  let id = slug
  for (let number = 2; team.roster.people.has(id); number += 1) id = `${slug}-${number}`
  return id
}

export function channelModal(team: Team): Modal {
  return modal({ door: 'channel', title: "The coaches' channel", submit: 'Save', about: {} }, [
    channelPicker(
      {
        name: 'channel',
        label: 'Where the list of the day is posted',
        hint: 'Invite the bot there first. Coaches read it, so only people who may see who runs.',
      },
      team.roster.coachesChannel,
    ),
  ])
}

export const channelRead = reads(z.object({}), async (at, form) => ({
  hands: [{ kind: 'place', place: 'coaches', channel: form.channel('channel') }],
  under: () => clinicScreen(at),
}))
