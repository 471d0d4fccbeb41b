import type { Notice } from '../../src/chart/notices.ts'
import type { Commit } from '../../src/desk/ports.ts'

export const at = (minute: number): string => new Date(Date.UTC(2026, 2, 2, 6, minute)).toISOString()

export function notice(key: string, more: Partial<Notice> = {}): Notice {
  return { key, kind: 'told', to: { person: 'ada' }, queuedAt: at(0), ...more }
}

export function commitOf(subject: string, atLength: number, more: Partial<Commit> = {}): Commit {
  const entries = [{ id: `${subject}/${atLength + 1}`, kind: 'check-in', worstPain: 2 }]
  return { subject, entries, notices: [], atLength, dueAt: null, open: true, ...more }
}

export const ids = (entries: readonly Record<string, unknown>[]): unknown[] =>
  entries.map((entry) => entry.id)
