import type { Clinic } from '../chart/clinic.ts'
import { type Day, plusDays } from '../chart/day.ts'
import type { Entry } from '../chart/entries.ts'
import { type ClinicEntry, readRoster, type Team } from '../chart/roster.ts'
import type { Case } from './morning.ts'

/** An invented athlete whose case is the wanted one, with one earlier morning where something is usual. */
export function entriesOf(patient: Case, usualPain: number | undefined, day: Day): readonly Entry[] {
  const { tissue, knee, hip, afterSurgery } = patient
  const by = (id: string, recordedAt: string) => ({ id, athlete: 'ada', author: 'treating', recordedAt })
  const before = plusDays(day, -1)
  const site = `${hip ? 'hip' : knee ? '' : 'lower leg'} ${knee ? 'knee' : ''}`.trim()
  return [
    {
      ...by('enrolment/ada/1', '2026-05-01T08:00:00.000Z'),
      kind: 'enrolment',
      timeZone: 'UTC',
      promptAt: '06:30',
      therapist: 'treating',
      coaches: [],
      consentToCoach: false,
      precautions: [],
    },
    {
      ...by('episode/ada/1', '2026-05-01T08:00:00.000Z'),
      kind: 'episode',
      diagnosis: 'invented',
      tissue,
      site,
      side: 'left',
      onsetDay: '2026-04-01',
      ...(afterSurgery ? { surgeryDay: '2026-04-20' } : {}),
    },
    ...(usualPain === undefined
      ? []
      : [
          {
            ...by(`check-in/ada/${before}`, `${before}T08:00:00.000Z`),
            kind: 'check-in' as const,
            day: before,
            worstPain: usualPain,
            morningPain: 0,
            swelling: 'no' as const,
            signs: { always: [] },
          },
        ]),
  ]
}

export function teamOf(clinic: Clinic): Team {
  const person = (id: string, roles: readonly string[]): ClinicEntry =>
    ({
      id: `person/${id}`,
      author: 'lead',
      recordedAt: '2026-05-01T08:00:00.000Z',
      kind: 'person',
      person: { id, name: id, roles, chatUser: `U${id}`, timeZone: clinic.timeZone, active: true },
    }) as ClinicEntry
  const people = [
    person('ada', ['athlete']),
    person('treating', ['therapist']),
    person('lead', ['clinic-lead']),
  ]
  return { clinic: { ...clinic, hours: alwaysOpen }, roster: readRoster(people) }
}

/** Hours decide who is called first, and are shown elsewhere. */
const alwaysOpen: Clinic['hours'] = [
  { days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'], from: '00:00', until: '23:59' },
]
