import { readFileSync } from 'node:fs'
import { type Chart, readChart } from '../chart/chart.ts'
import type { Instant } from '../chart/day.ts'
import { Entry } from '../chart/entries.ts'

/** A chart file that cannot be read; the words name the file and the entry. */
export class ChartFault extends Error {
  override readonly name = 'ChartFault'
}

/**
 * The entries of one athlete from a file: a JSON array, an object with `entries`, or one entry a line. Throws
 * `ChartFault`.
 */
export function readEntries(file: string): readonly Entry[] {
  const text = textOf(file)
  return entriesFrom(written(file, text), file)
}

/** Checks entries one by one; `where` names the file in what is said of a bad one. */
export function entriesFrom(list: readonly unknown[], where: string): readonly Entry[] {
  const entries = list.map((one, i) => {
    const parsed = Entry.safeParse(one)
    if (parsed.success) return parsed.data
    const issue = parsed.error.issues[0]
    throw new ChartFault(`${where}: entry ${i + 1}: ${issue?.path.join('.') ?? ''}: ${issue?.message}`)
  })
  const athletes = new Set(entries.map((entry) => entry.athlete))
  if (athletes.size !== 1)
    throw new ChartFault(
      `${where}: a chart is of one athlete; found ${athletes.size}: ${[...athletes].join(', ')}`,
    )
  return entries
}

/** The chart as it stood at an instant. */
export function chartAt(entries: readonly Entry[], at: Instant): Chart {
  const known = entries.filter((entry) => entry.recordedAt <= at)
  return readChart(entries[0]?.athlete ?? '', known)
}

function textOf(file: string): string {
  try {
    return readFileSync(file, 'utf8')
  } catch {
    throw new ChartFault(`${file}: cannot be read`)
  }
}

function written(file: string, text: string): readonly unknown[] {
  const whole = json(text)
  if (Array.isArray(whole)) return whole
  if (typeof whole === 'object' && whole !== null && 'entries' in whole && Array.isArray(whole.entries))
    return whole.entries
  return text
    .split('\n')
    .filter((line) => line.trim() !== '')
    .flatMap((line, i) => {
      const one = json(line)
      if (one === undefined) throw new ChartFault(`${file}: line ${i + 1} is not JSON`)
      // A store's own line holds the entries of one commit.
      if (typeof one === 'object' && one !== null && 'entries' in one && Array.isArray(one.entries))
        return one.entries
      return [one]
    })
}

function json(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return undefined
  }
}
