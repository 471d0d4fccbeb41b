import type { Chart } from '../../src/chart/chart.ts'
import { Entry } from '../../src/chart/entries.ts'
import type { Decision, Refusal } from '../../src/rules/decision.ts'
import { sources } from '../../src/science/sources.ts'

/**
 * What holds of every decision whatever it decides, so that no test needs to say it: entries can be read back under
 * an id of their own, every reason of a rule has a name, words and a source that is listed, and every notice a key and
 * an entry that it is about.
 */
export function inOrder(chart: Chart, { entries, notices }: Decision): void {
  const ids = new Set(chart.ids.keys())
  for (const entry of entries) {
    Entry.parse(entry)
    if (ids.has(entry.id)) throw new Error(`${entry.id} is written twice`)
    ids.add(entry.id)
    for (const { finding, words, source } of 'because' in entry ? (entry.because ?? []) : []) {
      if (finding === 'therapist') continue
      if (!/^[a-z][a-z0-9-]+$/.test(finding)) throw new Error(`${entry.id}: no finding`)
      if (!said(words)) throw new Error(`${entry.id}: ${finding} has no words`)
      if (!sources[source]) throw new Error(`${entry.id}: ${finding} has no source`)
    }
    if (entry.kind === 'breach' && !said(entry.words)) throw new Error(`${entry.id} has no words`)
  }
  for (const { key, kind, about } of notices) {
    if (!/^[a-z].*\/./.test(key)) throw new Error(`a notice of the kind ${kind} needs a key`)
    // What coaches hear is read at delivery; the name of a hold in confidence would say too much.
    if (kind !== 'list' && kind !== 'cleared' && (about === undefined || !ids.has(about)))
      throw new Error(`${key} is about nothing`)
  }
}

/** A no names itself, says what to do next, and names the field where there is one. */
export function inWords({ refused, words, field }: Refusal): Error {
  if (!/^[a-z][a-z-]+$/.test(refused) || !said(words)) throw new Error(`${refused}: nothing is said`)
  if (field !== undefined && !/^[a-z]/.test(field)) throw new Error(`${refused}: which field?`)
  return new Error(`${refused}: ${words}${field === undefined ? '' : ` [${field}]`}`)
}

function said(text: string): boolean {
  return /\w{2}/.test(text)
}
