import type { Store } from '../desk/ports.ts'

export type Row = {
  readonly name: string
  readonly ours: number
  readonly reference: number
  readonly ratio: number
  readonly target: number
  readonly met: boolean
}

export function row(name: string, ours: number, reference: number, target: number): Row {
  const ratio = Math.round((ours / reference) * 100) / 100
  return { name, ours, reference, ratio, target, met: ratio >= target }
}

/** How often a second a deed gets done, by so many hands at a time. */
export async function ratePerSecond(
  hands: number,
  seconds: number,
  deed: (i: number) => Promise<void>,
): Promise<number> {
  let done = 0
  const began = performance.now()
  const until = began + seconds * 1000
  const worker = async () => {
    while (performance.now() < until) await deed(done++)
  }
  await Promise.all(Array.from({ length: hands }, worker))
  return Math.round(done / ((performance.now() - began) / 1000))
}

/** Commits entries to a chart and keeps its length; asks again when somebody else was first. */
export async function commitTo(
  store: Store,
  lengths: number[],
  athlete: number,
  entries: number,
): Promise<void> {
  for (;;) {
    const atLength = lengths[athlete] ?? 0
    const answer = await store.commit({
      subject: `athlete-${athlete}`,
      atLength,
      entries: Array.from({ length: entries }, (_, i) => entryOf(atLength + i)),
      notices: [],
      dueAt: '2026-03-02T06:30:00.000Z',
      open: true,
    })
    lengths[athlete] = answer.length
    if ('committed' in answer) return
  }
}

export function entryOf(number: number) {
  return {
    id: `check-in/athlete/${number}`,
    kind: 'check-in',
    author: 'athlete',
    recordedAt: '2026-03-02T06:30:00.000Z',
    day: '2026-03-02',
    pain: 2,
    swelling: 'none',
    sleepHours: 7.5,
    fatigue: 3,
    words: 'fine after yesterday',
  }
}
