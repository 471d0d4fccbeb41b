import { createHash } from 'node:crypto'

/** An entry as it is kept: it carries the hash of the entry before it. */
export type Sealed<E = Record<string, unknown>> = E & { readonly before: string }

/** What the first entry of a chart carries. */
export const chainStart = 'start'

/** The hash of an entry as it is kept: SHA-256 over its JSON text, base64url. Key order counts: keep the text. */
export function hashOf(sealed: Sealed<object>): string {
  return createHash('sha256').update(JSON.stringify(sealed)).digest('base64url')
}

/** Chains new entries behind `last`, the hash of the entry they follow (or `chainStart`). */
export function seal<E extends object>(
  entries: readonly E[],
  last: string,
): { sealed: Sealed<E>[]; last: string } {
  let before = last
  const sealed = entries.map((entry) => {
    const next = { ...entry, before }
    before = hashOf(next)
    return next
  })
  return { sealed, last: before }
}

/** The position of the first entry that does not follow the one before it; undefined when all do. */
export function firstBreak(
  entries: readonly Sealed<object>[],
  last: string = chainStart,
): number | undefined {
  let before = last
  for (const [position, entry] of entries.entries()) {
    if (entry.before !== before) return position
    before = hashOf(entry)
  }
  return undefined
}
