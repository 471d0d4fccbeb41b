import type { CarePlan, ServiceRequest } from '@medplum/fhirtypes'
import { prescriptionOf, sessionOf } from '../../chart/chart.ts'
import { dayAt } from '../../chart/day.ts'
import type { EntryOf } from '../../chart/entries.ts'
import type { Prescription } from '../../chart/prescription.ts'
import { ceilingWords, doseWords } from '../dose-words.ts'
import { conditionKey } from './episode.ts'
import { concept, type Dossier, type Page, patientKey, refTo, signerRef } from './naming.ts'
import { boutExtension, rungExtensions } from './stretches.ts'

type Plan = EntryOf<'plan-signed'>

/** The signed plan with its rungs, and each day's prescription as a request that the plan gave rise to. */
export function planPages(dossier: Dossier): readonly Page[] {
  let plan: Plan | undefined
  return dossier.chart.entries.flatMap((entry): Page[] => {
    if (entry.kind === 'plan-signed') {
      if (!dossier.struck.has(entry.id)) plan = entry
      return [{ key: planKey(entry), resource: carePlan(dossier, entry), from: entry }]
    }
    if (entry.kind !== 'prescription') return []
    return [{ key: prescriptionKey(entry.id), resource: request(dossier, entry, plan), from: entry }]
  })
}

export function prescriptionKey(id: string): `ServiceRequest/${string}` {
  return `ServiceRequest/${id}`
}

function planKey(plan: Plan): `CarePlan/${string}` {
  return `CarePlan/${plan.id}`
}

function planStatus({ chart, struck }: Dossier, plan: Plan): CarePlan['status'] {
  if (struck.has(plan.id)) return 'entered-in-error'
  if (chart.plan?.id !== plan.id) return 'revoked'
  return chart.holds.length > 0 ? 'on-hold' : 'active'
}

function carePlan(dossier: Dossier, plan: Plan): CarePlan {
  const { chart, team } = dossier
  const { ladder, ceiling, days, startRung } = plan
  const at = chart.sessions.at(-1)?.rung ?? startRung
  const inForce = chart.plan?.id === plan.id
  return {
    resourceType: 'CarePlan',
    identifier: [{ system: `${team.clinic.record.namespace}/entry`, value: plan.id }],
    status: planStatus(dossier, plan),
    intent: 'plan',
    title: ladder.title,
    description: ladder.about,
    subject: refTo(dossier, patientKey(dossier)),
    period: { start: dayAt(plan.recordedAt, chart.enrolment?.timeZone ?? team.clinic.timeZone) },
    created: plan.recordedAt,
    author: signerRef(dossier, plan.author),
    ...(chart.episode ? { addresses: [refTo(dossier, conditionKey(chart.episode))] } : {}),
    activity: ladder.rungs.map((rung, i) => ({
      detail: {
        extension: rungExtensions(dossier, rung),
        kind: 'ServiceRequest',
        status: !inForce
          ? 'unknown'
          : i + 1 < at
            ? 'completed'
            : i + 1 === at
              ? 'in-progress'
              : 'not-started',
        description: `Rung ${i + 1}: ${rung.name}, ${rung.bodyWeightPct} % of body weight carried`,
      },
    })),
    note: [
      { text: `Ceiling: ${ceilingWords(ceiling)}. Days: ${days.join(', ')}. Starts on rung ${startRung}.` },
      ...ladder.sources.map(({ key, label, gives }) => ({ text: `Source ${key} (${label}): ${gives}` })),
    ],
  }
}

/** Rest forbids the run; a later prescription for the same day revokes the earlier one. */
function request(dossier: Dossier, prescription: Prescription, plan: Plan | undefined): ServiceRequest {
  const { chart, team } = dossier
  const { what, dose } = prescription
  const about = chart.entries.find((entry) => entry.id === prescription.about)
  return {
    resourceType: 'ServiceRequest',
    ...(dose ? { extension: dose.bouts.map((bout) => boutExtension(dossier, bout)) } : {}),
    identifier: [{ system: `${team.clinic.record.namespace}/entry`, value: prescription.id }],
    status: requestStatus(dossier, prescription),
    // An order that a rule derived from the signed plan and the answer of the morning.
    intent: 'reflex-order',
    ...(what === 'rest' ? { doNotPerform: true } : {}),
    code: concept(dossier, what === 'exercise' ? 'exercise-without-running' : 'unloaded-run'),
    ...(dose ? { orderDetail: doseWords(dose).map((text) => ({ text })) } : {}),
    subject: refTo(dossier, patientKey(dossier)),
    occurrenceDateTime: prescription.day,
    authoredOn: prescription.recordedAt,
    requester: signerRef(dossier, prescription.author),
    ...(plan ? { basedOn: [refTo(dossier, planKey(plan))] } : {}),
    ...(chart.episode ? { reasonReference: [refTo(dossier, conditionKey(chart.episode))] } : {}),
    ...(about?.kind === 'check-in'
      ? { supportingInfo: [refTo(dossier, `QuestionnaireResponse/${about.id}`)] }
      : {}),
    note: prescription.because.map(({ words, source }) => ({ text: `${words} [${source}]` })),
  }
}

function requestStatus(
  { chart, struck, today }: Dossier,
  prescription: Prescription,
): ServiceRequest['status'] {
  if (struck.has(prescription.id)) return 'entered-in-error'
  if (prescriptionOf(chart, prescription.day)?.id !== prescription.id) return 'revoked'
  if (sessionOf(chart, prescription.day)?.about === prescription.id) return 'completed'
  return prescription.day >= today ? 'active' : 'unknown'
}
