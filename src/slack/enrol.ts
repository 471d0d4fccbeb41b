import type { KnownBlock, Option } from '@slack/types'
import { z } from 'zod'
import { Enrolment, precautions } from '../chart/enrolment.ts'
import type { EntryOf } from '../chart/entries.ts'
import { nameOf, type Person, type Role, type Team } from '../chart/roster.ts'
import type { Refusal } from '../rules/decision.ts'
import { type Modal, modal, numberInput, option } from './blocks.ts'
import { caseModal } from './case.ts'
import type { Form } from './form.ts'
import {
  boxesFrom,
  lineInput,
  optionsOf,
  peoplePicker,
  personPicker,
  radioFrom,
  selectFrom,
  timePicker,
} from './pickers.ts'
import { reads } from './reading.ts'

const none = 'none'

/** Who it is, when to ask, who treats, what may be shared. What was signed before stands in the form already. */
export function enrolModal(team: Team, by: Person, athlete?: Person, before?: EntryOf<'enrolment'>): Modal {
  const accounts = (ids: readonly string[]) => ids.flatMap((id) => team.roster.people.get(id)?.chatUser ?? [])
  return modal({ door: 'enrol', title: 'Enrol: 1 of 3', submit: 'Save and go on', about: {} }, [
    personPicker({ name: 'athlete', label: 'Athlete' }, athlete?.chatUser),
    timePicker({ name: 'promptAt', label: 'Morning question at' }, before?.promptAt ?? '06:30'),
    lineInput({
      name: 'timeZone',
      label: 'Time zone',
      hint: 'Such as Europe/Lisbon. Left empty: the one known for the athlete.',
      optional: true,
      initial: before?.timeZone,
    }),
    selectFrom(
      { name: 'therapist', label: 'Treating therapist' },
      peopleWith(team, 'therapist'),
      before?.therapist ?? by.id,
    ),
    selectFrom(
      { name: 'cover', label: 'Cover when the therapist is away', optional: true },
      peopleWith(team, 'therapist'),
      before?.cover,
    ),
    peoplePicker({ name: 'coaches', label: 'Coaches', optional: true }, accounts(before?.coaches ?? [])),
    radioFrom(
      { name: 'consent', label: 'Does the athlete agree to share with these coaches?' },
      [option('yes', 'Yes: cleared or not, load and date; nothing medical'), option('no', 'No: nothing')],
      before && (before.consentToCoach ? 'yes' : 'no'),
    ),
    ...bodyFields(before),
    boxesFrom(
      {
        name: 'precautions',
        label: 'Precautions of running under air pressure',
        hint: 'Ask the treating clinician. Remembered, not read in a source. Each one present holds running.',
      },
      [
        ...Object.entries(precautions).map(([name, words]) => option(name, words)),
        option(none, 'None of these'),
      ],
      before && (before.precautions.length > 0 ? before.precautions : [none]),
    ),
  ])
}

function bodyFields(before: EntryOf<'enrolment'> | undefined): KnownBlock[] {
  const initial = (value: number | undefined) => (value === undefined ? {} : { initial: value })
  return [
    numberInput({
      name: 'bodyMassKg',
      label: 'Body mass, in kg',
      low: 25,
      high: 250,
      decimal: true,
      optional: true,
      ...initial(before?.bodyMassKg),
    }),
    numberInput({
      name: 'heightCm',
      label: 'Height, in cm',
      low: 100,
      high: 240,
      optional: true,
      ...initial(before?.heightCm),
    }),
    radioFrom(
      { name: 'sex', label: 'Sex, for reference values only', optional: true },
      [option('f', 'Female'), option('m', 'Male')],
      before?.sex,
    ),
    selectFrom(
      { name: 'shortsSize', label: 'Size of the shorts', optional: true },
      optionsOf(Enrolment.shape.shortsSize.unwrap().options),
      before?.shortsSize,
    ),
  ]
}

export const enrolRead = reads(z.object({}), async ({ doorway }, form) => {
  const { desk } = doorway
  const team = await desk.team()
  const athlete = team.roster.byAccount.get(form.account('athlete') ?? '')
  if (!athlete)
    return {
      refused: 'unknown-person',
      words: `I do not know this person yet. The clinic lead adds people with ${doorway.typed('/cover')}.`,
      field: 'athlete',
    }
  const read = enrolmentFrom(form, athlete, team)
  if ('refused' in read) return read
  return {
    hands: [read],
    next: async (chart) => chart && caseModal(chart, desk.library, 'on the way', nameOf(team, chart.athlete)),
  }
})

function enrolmentFrom(form: Form, athlete: Person, team: Team): object | Refusal {
  const ticks = form.choices('precautions') ?? []
  if (ticks.length === 0 || (ticks.includes(none) && ticks.length > 1))
    return {
      refused: 'contradiction',
      words: 'Tick either what applies or "none of these".',
      field: 'precautions',
    }
  const coaches = form.accounts('coaches').map((account) => team.roster.byAccount.get(account))
  if (coaches.some((coach) => !coach?.active || !coach.roles.some((role) => /coach/.test(role))))
    return {
      refused: 'not-a-coach',
      words: 'Everybody here must be known as a coach. The clinic lead adds people.',
      field: 'coaches',
    }
  return {
    kind: 'enrolment',
    athlete: athlete.id,
    timeZone: form.text('timeZone')?.trim() || athlete.timeZone,
    promptAt: form.time('promptAt'),
    therapist: form.choice('therapist'),
    cover: form.choice('cover'),
    coaches: coaches.flatMap((coach) => coach?.id ?? []),
    consentToCoach: form.choice('consent') === 'yes',
    bodyMassKg: form.number('bodyMassKg'),
    heightCm: form.number('heightCm'),
    sex: form.choice('sex'),
    shortsSize: form.choice('shortsSize'),
    precautions: ticks.filter((tick) => tick !== none),
  }
}

function peopleWith(team: Team, role: Role): Option[] {
  return [...team.roster.people.values()]
    .filter((person) => person.active && person.roles.includes(role))
    .map((person) => option(person.id, person.name))
}
