import type { Communication, Flag } from '@medplum/fhirtypes'
import type { Escalation } from '../../chart/chart.ts'
import type { EntryOf } from '../../chart/entries.ts'
import type { Because } from '../../chart/signing.ts'
import { standingEntries } from '../../chart/struck.ts'
import {
  concept,
  type Dossier,
  type Page,
  patientKey,
  personRef,
  refTo,
  signerRef,
  terminology,
} from './naming.ts'

type FlagKey = `Flag/${string}`

/** Holds and red flags as warnings with their time, and every call about them as a message. */
export function flagPages(dossier: Dossier): readonly Page[] {
  const holds = dossier.chart.entries.flatMap((entry): Page[] =>
    entry.kind === 'hold' ? [{ key: `Flag/${entry.id}`, resource: hold(dossier, entry), from: entry }] : [],
  )
  return [
    ...holds,
    ...dossier.chart.escalations.flatMap((escalation) => escalationPages(dossier, escalation)),
  ]
}

function hold(dossier: Dossier, entry: EntryOf<'hold'>): Flag {
  const lifted = standingEntries(dossier.chart).find((e) => e.kind === 'hold-lifted' && e.hold === entry.id)
  return flag(dossier, {
    status: dossier.struck.has(entry.id) ? 'entered-in-error' : lifted ? 'inactive' : 'active',
    code: { ...concept(dossier, 'hold'), text: `Running is on hold: ${inWords(entry.because)}` },
    period: { start: entry.recordedAt, ...(lifted ? { end: lifted.recordedAt } : {}) },
    author: signerRef(dossier, entry.author),
  })
}

function escalationPages(dossier: Dossier, e: Escalation): readonly Page[] {
  const key = `Flag/${e.id}` as const
  const raised = flag(dossier, {
    status: e.closed ? 'inactive' : 'active',
    code: { ...concept(dossier, 'red-flag'), text: inWords(e.because) },
    period: { start: e.opened.recordedAt, ...(e.closed ? { end: e.closed.recordedAt } : {}) },
    author: signerRef(dossier, e.opened.author),
  })
  return [
    { key, resource: raised, from: e.opened },
    ...e.calls.map(
      (call): Page => ({
        key: `Communication/${call.id}`,
        resource: callMade(dossier, e, call, key),
        from: call,
      }),
    ),
    ...(e.closed
      ? [
          {
            key: `Communication/${e.closed.id}` as const,
            resource: closing(dossier, e.closed, key),
            from: e.closed,
          },
        ]
      : []),
  ]
}

function flag(dossier: Dossier, own: Pick<Flag, 'status' | 'code' | 'period' | 'author'>): Flag {
  return {
    resourceType: 'Flag',
    ...own,
    category: [{ coding: [terminology('flag-category', 'clinical')] }],
    subject: refTo(dossier, patientKey(dossier)),
  }
}

/** Sent is not seen: `received` is set only when the person who was called acknowledged by name. */
function callMade(
  dossier: Dossier,
  e: Escalation,
  call: EntryOf<'call-made'>,
  about: FlagKey,
): Communication {
  const acknowledged = e.acknowledgements.find(
    (one) => one.author === call.person && one.recordedAt >= call.recordedAt,
  )
  const sent = e.sent.get(call.call)
  const failed = e.failed.get(call.call)
  return {
    resourceType: 'Communication',
    status: failed ? 'not-done' : sent || acknowledged ? 'completed' : 'unknown',
    ...(failed ? { statusReason: { text: failed.words } } : {}),
    category: [concept(dossier, 'call')],
    priority: e.tier === 'emergency' ? 'stat' : 'urgent',
    subject: refTo(dossier, patientKey(dossier)),
    about: [refTo(dossier, about)],
    sent: sent?.recordedAt ?? call.recordedAt,
    ...(acknowledged ? { received: acknowledged.recordedAt } : {}),
    recipient: [personRef(dossier, call.person)],
    sender: signerRef(dossier, call.author),
    payload: [{ contentString: inWords(e.because) }],
  }
}

function closing(dossier: Dossier, closed: EntryOf<'escalation-closed'>, about: FlagKey): Communication {
  return {
    resourceType: 'Communication',
    status: 'completed',
    category: [concept(dossier, 'closing')],
    subject: refTo(dossier, patientKey(dossier)),
    about: [refTo(dossier, about)],
    sent: closed.recordedAt,
    sender: signerRef(dossier, closed.author),
    payload: [{ contentString: `${closed.disposition}: ${closed.words}` }],
  }
}

function inWords(because: readonly Because[]): string {
  return because.map(({ words, source }) => `${words} [${source}]`).join(' ')
}
