import { z } from 'zod'
import { Instant } from './day.ts'

/**
 * Something that somebody must be told. A notice points at entries and never holds their words: what
 * is said is rendered at delivery, so nothing medical waits in the outbox.
 */
export const Notice = z.object({
  /** Derived from its cause: queueing it twice is queueing it once. */
  key: z.string().min(1).max(300),
  kind: z.enum([
    'prompt',
    'reminder',
    'prescription',
    'stop',
    'support',
    'reply',
    'told',
    'call',
    'call-news',
    'note',
    'cleared',
    'list',
  ]),
  /** A person by id, or a place that the clinic has named (the coaches' channel). */
  to: z.union([z.object({ person: z.string() }), z.object({ place: z.literal('coaches') })]),
  /** Whose chart it is about; absent when it is about the clinic. */
  athlete: z.string().optional(),
  /** The entry that it tells of. */
  about: z.string().optional(),
  /** Notices of one surface share one message: the first posts it, later ones update it in place. */
  surface: z.string().optional(),
  queuedAt: Instant,
  /** Held back until then (quiet hours). Never set on a call. */
  notBefore: Instant.optional(),
  /** Useless after this; then it is written down as missed. Absent: it never expires. */
  useBy: Instant.optional(),
})
export type Notice = z.infer<typeof Notice>

/** Notices of one lane are delivered in the order in which they were queued; calls never wait behind others. */
export function laneOf(notice: Notice): string {
  const to = 'person' in notice.to ? notice.to.person : `#${notice.to.place}`
  return ringing.has(notice.kind) ? `${to}!` : to
}

/** What quiet hours never hold back and what never waits behind anything else. */
const ringing: ReadonlySet<Notice['kind']> = new Set(['call', 'stop', 'support'])
