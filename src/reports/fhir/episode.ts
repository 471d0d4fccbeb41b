import type { Coding, Condition, Procedure } from '@medplum/fhirtypes'
import type { EntryOf } from '../../chart/entries.ts'
import type { LocalCode } from './local-codes.ts'
import {
  concept,
  type Dossier,
  loinc,
  type Page,
  patientKey,
  performers,
  personRef,
  quantity,
  refTo,
  terminology,
  type Unit,
} from './naming.ts'
import { observationStatus } from './status.ts'

export function conditionKey(episode: EntryOf<'episode'>): `Condition/${string}` {
  return `Condition/${episode.id}`
}

/** The injury and its surgery, as the therapist wrote them; an episode that was written anew leaves the old one inactive. */
export function episodePages(dossier: Dossier): readonly Page[] {
  return dossier.chart.entries.flatMap((entry): Page[] => {
    if (entry.kind === 'enrolment') return bodyPages(dossier, entry)
    if (entry.kind !== 'episode') return []
    const pages: Page[] = [{ key: conditionKey(entry), resource: condition(dossier, entry), from: entry }]
    if (entry.surgeryDay)
      pages.push({
        key: `Procedure/${entry.id}/surgery`,
        resource: surgery(dossier, entry, entry.surgeryDay),
        from: entry,
      })
    return pages
  })
}

function condition(dossier: Dossier, episode: EntryOf<'episode'>): Condition {
  const struck = dossier.struck.has(episode.id)
  const current = dossier.chart.episode?.id === episode.id
  const side = episode.side === 'none' ? '' : `${episode.side} `
  const words = [episode.words, episode.noRunBefore && `No running before ${episode.noRunBefore}.`].filter(
    Boolean,
  )
  return {
    resourceType: 'Condition',
    ...(struck
      ? {}
      : { clinicalStatus: { coding: [terminology('condition-clinical', current ? 'active' : 'inactive')] } }),
    verificationStatus: {
      coding: [terminology('condition-ver-status', struck ? 'entered-in-error' : 'confirmed')],
    },
    code: { text: episode.diagnosis },
    bodySite: [{ text: `${side}${episode.site}` }],
    subject: refTo(dossier, patientKey(dossier)),
    onsetDateTime: episode.onsetDay,
    recordedDate: episode.recordedAt,
    recorder: personRef(dossier, episode.author),
    ...(words.length > 0 ? { note: [{ text: words.join(' ') }] } : {}),
  }
}

function surgery(dossier: Dossier, episode: EntryOf<'episode'>, day: string): Procedure {
  return {
    resourceType: 'Procedure',
    status: dossier.struck.has(episode.id) ? 'entered-in-error' : 'completed',
    code: { ...concept(dossier, 'surgery'), text: `Surgery for ${episode.diagnosis}` },
    subject: refTo(dossier, patientKey(dossier)),
    performedDateTime: day,
    reasonReference: [refTo(dossier, conditionKey(episode))],
    recorder: personRef(dossier, episode.author),
  }
}

function bodyPages(dossier: Dossier, entry: EntryOf<'enrolment'>): Page[] {
  const one = (name: LocalCode, loincCode: Coding, value: number | undefined, unit: Unit): Page[] =>
    value === undefined
      ? []
      : [
          {
            key: `Observation/${entry.id}/${name}`,
            from: entry,
            resource: {
              resourceType: 'Observation',
              status: observationStatus(dossier, entry),
              category: [{ coding: [terminology('observation-category', 'vital-signs')] }],
              code: concept(dossier, name, loincCode),
              subject: refTo(dossier, patientKey(dossier)),
              effectiveDateTime: entry.recordedAt,
              issued: entry.recordedAt,
              ...performers(dossier, entry.author),
              valueQuantity: quantity(value, unit),
            },
          },
        ]
  return [
    ...one('body-mass', loinc.bodyWeight, entry.bodyMassKg, 'kg'),
    ...one('body-height', loinc.bodyHeight, entry.heightCm, 'cm'),
  ]
}
