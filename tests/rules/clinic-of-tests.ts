import { readFileSync } from 'node:fs'
import { type Chart, readChart, withEntries } from '../../src/chart/chart.ts'
import { Clinic } from '../../src/chart/clinic.ts'
import type { Entry } from '../../src/chart/entries.ts'
import { type ClinicEntry, type Person, readRoster, type Team } from '../../src/chart/roster.ts'
import { type Decision, isRefusal, type Refusal } from '../../src/rules/decision.ts'
import { AlarmWords, wordList } from '../../src/rules/words.ts'
import { inOrder, inWords } from './in-order.ts'

export const clinic = Clinic.parse(JSON.parse(readFileSync('shared/clinic.json', 'utf8')))
export const words = wordList(AlarmWords.parse(JSON.parse(readFileSync('shared/words/alarms.json', 'utf8'))))

/** A Tuesday morning in the clinic's hours. */
export const tuesday = '2026-05-12'
export const at = (time: string, day = tuesday) => `${day}T${time}:00.000Z`

const person = (id: string, role: Person['roles'][number], more: Partial<Person> = {}): Person => {
  return {
    id,
    name: `${id[0]?.toUpperCase()}${id.slice(1)}`,
    roles: [role],
    chatUser: `U${id}`,
    timeZone: 'UTC',
    active: true,
    ...more,
  }
}

export const people: readonly Person[] = [
  person('ada', 'athlete'),
  person('coco', 'coach'),
  person('iben', 'therapist'),
  person('ravi', 'therapist'),
  person('sunniva', 'clinic-lead'),
  person('liv', 'therapist', { specialities: ['mental health'] }),
  person('kit', 'therapist', { specialities: ['bone stress'] }),
]

type Undated = {
  [K in ClinicEntry['kind']]: Omit<Extract<ClinicEntry, { kind: K }>, 'id' | 'author' | 'recordedAt'>
}[ClinicEntry['kind']]

/** The clinic with these people, and whatever else stands in its journal. */
export function teamOf(who: readonly Person[] = people, journal: readonly Undated[] = []): Team {
  const entries = [...who.map((one): Undated => ({ kind: 'person', person: one })), ...journal]
  const dated = entries.map((entry, i) => ({
    ...entry,
    id: `${entry.kind}/${i + 1}`,
    author: 'sunniva',
    recordedAt: at('00:00', '2026-01-01'),
  }))
  return { clinic: { ...clinic, timeZone: 'UTC' }, roster: readRoster(dated as ClinicEntry[]) }
}

export const without = (id: string) => people.map((one) => (one.id === id ? { ...one, active: false } : one))

/** Ada, with a bone that heals, treated by Iben, covered by Ravi. */
export function adasChart(
  more: { readonly surgeryDay?: string; readonly tissue?: 'bone' | 'joint'; readonly site?: string } = {},
): Chart {
  const signed = (id: string) => ({
    id,
    athlete: 'ada',
    author: 'iben',
    recordedAt: at('08:00', '2026-05-01'),
  })
  return readChart('ada', [
    {
      ...signed('enrolment/ada/1'),
      kind: 'enrolment',
      timeZone: 'UTC',
      promptAt: '06:30',
      therapist: 'iben',
      cover: 'ravi',
      coaches: ['coco'],
      consentToCoach: true,
      precautions: [],
    },
    {
      ...signed('episode/ada/1'),
      kind: 'episode',
      diagnosis: 'invented',
      tissue: more.tissue ?? 'bone',
      site: more.site ?? 'distal tibia',
      side: 'left',
      onsetDay: '2026-04-01',
      ...(more.surgeryDay ? { surgeryDay: more.surgeryDay } : {}),
    },
  ])
}

/** The chart after a decision that must not be a refusal. */
export function after(chart: Chart, decision: Decision | Refusal): Chart {
  if (isRefusal(decision)) throw inWords(decision)
  inOrder(chart, decision)
  return withEntries(chart, decision.entries)
}

export const kinds = (decision: Decision, kind: Entry['kind']) =>
  decision.entries.filter((entry) => entry.kind === kind)
export const heardBy = (decision: Decision) =>
  decision.notices.flatMap(({ to, kind }) => ('person' in to ? [`${kind} to ${to.person}`] : []))
