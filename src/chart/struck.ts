import type { Entry, EntryOf } from './entries.ts'

type Record = { readonly entries: readonly Entry[] }

/** The ids of what amendments strike; undefined when there is no amendment, as in nearly every chart. */
export function struckBy(entries: readonly Entry[]): Set<string> | undefined {
  let struck: Set<string> | undefined
  for (const entry of entries) {
    if (entry.kind !== 'amendment') continue
    struck ??= new Set()
    struck.add(entry.strikes)
  }
  return struck
}

/** The entries that count: those that no amendment strikes. */
export function standingEntries({ entries }: Record): readonly Entry[] {
  const struck = struckBy(entries)
  return struck ? entries.filter((entry) => !struck.has(entry.id)) : entries
}

/** Which amendment struck which entry. */
export function amendmentsOf({ entries }: Record): ReadonlyMap<string, EntryOf<'amendment'>> {
  return new Map(
    entries.flatMap((entry) => (entry.kind === 'amendment' ? [[entry.strikes, entry] as const] : [])),
  )
}
