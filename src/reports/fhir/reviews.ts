import type { Observation } from '@medplum/fhirtypes'
import type { EntryOf } from '../../chart/entries.ts'
import { concept, type Dossier, type Page, patientKey, performers, refTo, terminology } from './naming.ts'
import { observationStatus } from './status.ts'

/** What a therapist signed after looking: a criteria set, line by line as it stood, and the review of a week. */
export function reviewPages(dossier: Dossier): readonly Page[] {
  return dossier.chart.entries.flatMap((entry): Page[] => {
    if (entry.kind === 'criteria-signed')
      return [{ key: `Observation/${entry.id}`, resource: criteria(dossier, entry), from: entry }]
    if (entry.kind === 'review')
      return [{ key: `Observation/${entry.id}`, resource: review(dossier, entry), from: entry }]
    return []
  })
}

function base(dossier: Dossier, entry: EntryOf<'criteria-signed' | 'review'>) {
  return {
    resourceType: 'Observation' as const,
    status: observationStatus(dossier, entry),
    category: [{ coding: [terminology('observation-category', 'exam')] }],
    subject: refTo(dossier, patientKey(dossier)),
    effectiveDateTime: entry.recordedAt,
    issued: entry.recordedAt,
    ...performers(dossier, entry.author),
    ...(entry.words ? { note: [{ text: entry.words }] } : {}),
  }
}

function criteria(dossier: Dossier, entry: EntryOf<'criteria-signed'>): Observation {
  return {
    ...base(dossier, entry),
    code: { ...concept(dossier, 'criteria-signed'), text: `Criteria ${entry.set}` },
    valueString: entry.against ? 'signed against the set' : 'signed',
    component: entry.lines.map(({ line, status, value, day }) => ({
      code: { ...concept(dossier, 'criterion'), text: line },
      valueString: [status, value, day].filter((part) => part !== undefined).join(', '),
    })),
  }
}

function review(dossier: Dossier, entry: EntryOf<'review'>): Observation {
  return {
    ...base(dossier, entry),
    code: { ...concept(dossier, 'review'), text: `Review of the week to ${entry.day}` },
    valueString: entry.next,
  }
}
