import type { AuditEvent, Communication } from '@medplum/fhirtypes'
import type { EntryOf } from '../../chart/entries.ts'
import { nameOf } from '../../chart/roster.ts'
import { amendRequests, answerBy } from '../../rules/amend-request.ts'
import type { LocalCode } from './local-codes.ts'
import { concept, type Dossier, type Page, patientKey, refTo, signerRef } from './naming.ts'

/** Requests to amend with their answers, and the exports that went out before. */
export function correctionPages(dossier: Dossier): readonly Page[] {
  const requests = amendRequests(dossier.chart).flatMap((request): Page[] => {
    const { asked, answered, disagreement } = request
    const by = answerBy(request, dossier.chart, dossier.team)
    return [
      said(dossier, asked, 'amendment-request', `${asked.words} (answer by ${by})`),
      ...(answered
        ? [
            said(
              dossier,
              answered,
              'amendment-answer',
              `${answered.outcome}: ${answered.words}`,
              messageKey(asked.id),
            ),
          ]
        : []),
      ...(disagreement
        ? [said(dossier, disagreement, 'disagreement', disagreement.words, messageKey(asked.id))]
        : []),
    ]
  })
  const exports = dossier.chart.entries.flatMap((entry): Page[] =>
    entry.kind === 'exported'
      ? [{ key: `AuditEvent/${entry.id}`, resource: exported(dossier, entry), from: entry }]
      : [],
  )
  return [...requests, ...exports]
}

function messageKey(id: string): `Communication/${string}` {
  return `Communication/${id}`
}

type Said = EntryOf<'amendment-request' | 'amendment-request-answered' | 'disagreement-stated'>

function said(
  dossier: Dossier,
  entry: Said,
  code: LocalCode,
  words: string,
  answers?: `Communication/${string}`,
): Page {
  const resource: Communication = {
    resourceType: 'Communication',
    status: 'completed',
    ...(answers ? { inResponseTo: [refTo(dossier, answers)] } : {}),
    category: [concept(dossier, code)],
    subject: refTo(dossier, patientKey(dossier)),
    sent: entry.recordedAt,
    sender: signerRef(dossier, entry.author),
    payload: [{ contentString: words }],
  }
  return { key: messageKey(entry.id), resource, from: entry }
}

function exported(dossier: Dossier, entry: EntryOf<'exported'>): AuditEvent {
  return {
    resourceType: 'AuditEvent',
    type: { system: 'http://dicom.nema.org/resources/ontology/DCM', code: '110106', display: 'Export' },
    action: 'R',
    recorded: entry.recordedAt,
    outcome: '0',
    agent: [
      { who: signerRef(dossier, entry.author), requestor: true },
      { name: entry.for, requestor: false },
    ],
    source: { observer: { display: nameOf(dossier.team, dossier.team.clinic.name) } },
    entity: [{ what: refTo(dossier, patientKey(dossier)), name: `Record as ${entry.what}` }],
  }
}
