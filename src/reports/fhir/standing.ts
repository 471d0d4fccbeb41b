import type { Observation } from '@medplum/fhirtypes'
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

/** A measure has its own unit, which the name of the measure says; no unit code is claimed. */
function measure(dossier: Dossier, entry: EntryOf<'measure'>): Observation {
  const { value, otherSide, note } = entry
  return {
    ...base(dossier, entry, 'exam'),
    code: { ...concept(dossier, 'measure'), text: entry.measure },
    effectiveDateTime: entry.day,
    ...(otherSide === undefined
      ? { valueQuantity: { value } }
      : {
          component: [
            { code: concept(dossier, 'injured-side'), valueQuantity: { value } },
            { code: concept(dossier, 'other-side'), valueQuantity: { value: otherSide } },
          ],
        }),
    ...(note ? { note: [{ text: note }] } : {}),
  }
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
