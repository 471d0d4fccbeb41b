import type { Observation, Quantity } from '@medplum/fhirtypes'
import type { EntryOf } from '../../chart/entries.ts'
import {
  concept,
  type Dossier,
  type Page,
  patientKey,
  performers,
  quantity,
  refTo,
  terminology,
  type Unit,
} from './naming.ts'
import { observationStatus } from './status.ts'

/** What staff measured, and what the therapist cleared the athlete for. */
export function standingPages(dossier: Dossier): readonly Page[] {
  return dossier.chart.entries.flatMap((entry): Page[] => {
    if (entry.kind === 'measure')
      return [{ key: `Observation/${entry.id}`, resource: measure(dossier, entry), from: entry }]
    if (entry.kind === 'clearance')
      return [{ key: `Observation/${entry.id}`, resource: clearance(dossier, entry), from: entry }]
    return []
  })
}

function base(dossier: Dossier, entry: EntryOf<'measure' | 'clearance'>, category: string) {
  return {
    resourceType: 'Observation' as const,
    status: observationStatus(dossier, entry),
    category: [{ coding: [terminology('observation-category', category)] }],
    subject: refTo(dossier, patientKey(dossier)),
    issued: entry.recordedAt,
    ...performers(dossier, entry.author),
  }
}

/** A measure in its own unit; coded where UCUM has the unit for certain, else as text. */
function measure(dossier: Dossier, entry: EntryOf<'measure'>): Observation {
  const { value, otherSide, note, protocol } = entry
  const kind = dossier.shelf?.measure(entry.measure)
  const of = (one: number): Quantity => {
    const unit = units[kind?.unit ?? '']
    return unit ? quantity(one, unit) : { value: one, ...(kind?.unit ? { unit: kind.unit } : {}) }
  }
  return {
    ...base(dossier, entry, 'exam'),
    code: { ...concept(dossier, 'measure'), text: kind?.title ?? entry.measure },
    effectiveDateTime: entry.day,
    ...(protocol ? { method: { text: protocol } } : {}),
    ...(otherSide === undefined
      ? { valueQuantity: of(value) }
      : {
          component: [
            { code: concept(dossier, 'injured-side'), valueQuantity: of(value) },
            { code: concept(dossier, 'other-side'), valueQuantity: of(otherSide) },
          ],
        }),
    ...(note ? { note: [{ text: note }] } : {}),
  }
}

const units: { readonly [unit: string]: Unit } = {
  cm: 'cm',
  s: 'seconds',
  min: 'minutes',
  degrees: 'degrees',
  mmHg: 'mmhg',
}

function clearance(dossier: Dossier, entry: EntryOf<'clearance'>): Observation {
  const { ceiling, words } = entry
  return {
    ...base(dossier, entry, 'therapy'),
    code: concept(dossier, 'clearance'),
    effectivePeriod: { start: entry.recordedAt, end: entry.until },
    valueString: entry.state,
    ...(ceiling
      ? {
          component: [
            {
              code: concept(dossier, 'ceiling-body-weight'),
              valueQuantity: quantity(ceiling.bodyWeightPct, 'percent'),
            },
            {
              code: concept(dossier, 'ceiling-speed'),
              valueQuantity: quantity(ceiling.speedMps * 3.6, 'kmh'),
            },
            {
              code: concept(dossier, 'ceiling-run-minutes'),
              valueQuantity: quantity(ceiling.runMinutes, 'minutes'),
            },
          ],
        }
      : {}),
    ...(words ? { note: [{ text: words }] } : {}),
  }
}
