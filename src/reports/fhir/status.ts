import type { Observation } from '@medplum/fhirtypes'
import type { Entry } from '../../chart/entries.ts'
import type { Dossier } from './naming.ts'

/** Struck: entered in error, never left out. Written anew in the place of a struck one: amended. Else final. */
export function observationStatus(dossier: Dossier, entry: Entry): Observation['status'] {
  if (dossier.struck.has(entry.id)) return 'entered-in-error'
  return replacedEntry(dossier, entry) ? 'amended' : 'final'
}

/** The struck entry in whose place this one was written: the same kind, about the same day. */
export function replacedEntry({ chart, struck }: Dossier, entry: Entry): Entry | undefined {
  if (!('day' in entry) || struck.size === 0) return undefined
  return chart.entries.findLast(
    (other) =>
      other.kind === entry.kind &&
      'day' in other &&
      other.day === entry.day &&
      struck.has(other.id) &&
      other.recordedAt <= entry.recordedAt &&
      other.id !== entry.id &&
      (entry.kind !== 'measure' || (other.kind === 'measure' && other.measure === entry.measure)),
  )
}
