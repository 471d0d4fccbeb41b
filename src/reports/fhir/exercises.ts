import type { Observation, Procedure } from '@medplum/fhirtypes'
import type { EntryOf } from '../../chart/entries.ts'
import { exerciseWords } from '../exercise-words.ts'
import {
  concept,
  type Dossier,
  type Page,
  patientKey,
  performers,
  personRef,
  quantity,
  refTo,
  terminology,
} from './naming.ts'
import { observationStatus } from './status.ts'

/** Exercises that were done, each timed stand as an observation, and runs that were said not to be run. */
export function exercisePages(dossier: Dossier): readonly Page[] {
  return dossier.chart.entries.flatMap((entry): readonly Page[] => {
    if (entry.kind === 'run-skipped')
      return [{ key: `Procedure/${entry.id}`, resource: skipped(dossier, entry), from: entry }]
    if (entry.kind === 'exercise-done')
      return [
        { key: `Procedure/${entry.id}`, resource: done(dossier, entry), from: entry },
        ...stands(dossier, entry),
      ]
    return entry.kind === 'session-done' ? stands(dossier, entry) : []
  })
}

function skipped(dossier: Dossier, entry: EntryOf<'run-skipped'>): Procedure {
  return {
    resourceType: 'Procedure',
    status: dossier.struck.has(entry.id) ? 'entered-in-error' : 'not-done',
    ...(entry.words ? { statusReason: { text: entry.words } } : {}),
    code: concept(dossier, 'unloaded-run'),
    subject: refTo(dossier, patientKey(dossier)),
    performedDateTime: entry.day,
    recorder: personRef(dossier, entry.author),
  }
}

function done(dossier: Dossier, entry: EntryOf<'exercise-done'>): Procedure {
  const words = [...entry.exercises.map(exerciseWords), ...(entry.note ? [entry.note] : [])]
  return {
    resourceType: 'Procedure',
    status: dossier.struck.has(entry.id) ? 'entered-in-error' : 'completed',
    code: concept(dossier, 'exercise-without-running'),
    subject: refTo(dossier, patientKey(dossier)),
    performedDateTime: entry.day,
    recorder: personRef(dossier, entry.author),
    ...(words.length > 0 ? { note: words.map((text) => ({ text })) } : {}),
  }
}

function stands(dossier: Dossier, entry: EntryOf<'exercise-done' | 'session-done'>): readonly Page[] {
  return (entry.balance ?? []).map((stand, i): Page => {
    const { side, eyes, surface, seconds, capSeconds } = stand
    const cap = capSeconds === undefined ? '' : `, cap ${capSeconds} s`
    const resource: Observation = {
      resourceType: 'Observation',
      status: observationStatus(dossier, entry),
      category: [{ coding: [terminology('observation-category', 'exam')] }],
      code: concept(dossier, 'timed-stand'),
      method: { text: `${side} leg, eyes ${eyes}, ${surface}${cap}` },
      subject: refTo(dossier, patientKey(dossier)),
      effectiveDateTime: entry.day,
      issued: entry.recordedAt,
      ...performers(dossier, entry.author),
      valueQuantity: quantity(seconds, 'seconds'),
    }
    return { key: `Observation/${entry.id}/stand-${i + 1}`, resource, from: entry }
  })
}
