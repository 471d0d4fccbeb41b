import type { CodeSystem, Device, Organization, Patient, Practitioner } from '@medplum/fhirtypes'
import { nameOf } from '../../chart/roster.ts'
import { byRule } from '../../rules/decision.ts'
import { localCodes } from './local-codes.ts'
import { type Dossier, localSystem, type Page, patientKey, refTo } from './naming.ts'

/** The clinic, the athlete, everybody who signed or was called, the bot, and the meaning of the local codes. */
export function peoplePages(dossier: Dossier): readonly Page[] {
  const { team } = dossier
  const clinic: Organization = { resourceType: 'Organization', active: true, name: team.clinic.name }
  return [
    { key: organizationKey(dossier), resource: clinic },
    { key: patientKey(dossier), resource: patient(dossier) },
    ...practitioners(dossier),
    { key: `Device/${byRule}`, resource: bot },
    { key: 'CodeSystem/record', resource: codeSystem(dossier) },
  ]
}

function organizationKey({ team }: Dossier): `Organization/${string}` {
  return `Organization/${team.clinic.name}`
}

const genders = { f: 'female', m: 'male' } as const

function patient(dossier: Dossier): Patient {
  const { chart, team } = dossier
  const { sex, therapist } = chart.enrolment ?? {}
  return {
    resourceType: 'Patient',
    identifier: [{ system: `${team.clinic.record.namespace}/athlete`, value: chart.athlete }],
    name: [{ text: nameOf(team, chart.athlete) }],
    ...(sex ? { gender: genders[sex] } : {}),
    ...(therapist ? { generalPractitioner: [refTo(dossier, `Practitioner/${therapist}`)] } : {}),
    managingOrganization: refTo(dossier, organizationKey(dossier)),
  }
}

function practitioners(dossier: Dossier): readonly Page[] {
  const { chart, team } = dossier
  const { therapist, cover } = chart.enrolment ?? {}
  const called = chart.escalations.flatMap((e) => [...e.calls.map((call) => call.person)])
  const people = new Set([therapist, cover, ...called, ...chart.entries.map((entry) => entry.author)])
  return [...people].flatMap((id): Page[] => {
    if (id === undefined || id === chart.athlete || id === byRule) return []
    const resource: Practitioner = {
      resourceType: 'Practitioner',
      identifier: [{ system: `${team.clinic.record.namespace}/person`, value: id }],
      name: [{ text: nameOf(team, id) }],
    }
    return [{ key: `Practitioner/${id}`, resource }]
  })
}

const bot: Device = {
  resourceType: 'Device',
  deviceName: [{ name: 'Sanderling', type: 'user-friendly-name' }],
  note: [{ text: 'Rules that decide inside what a licensed therapist signed.' }],
}

function codeSystem(dossier: Dossier): CodeSystem {
  return {
    resourceType: 'CodeSystem',
    url: localSystem(dossier),
    name: 'RecordCodes',
    title: 'Codes of this record',
    status: 'active',
    content: 'complete',
    caseSensitive: true,
    concept: Object.entries(localCodes).map(([code, { display, definition }]) => ({
      code,
      display,
      definition,
    })),
  }
}
