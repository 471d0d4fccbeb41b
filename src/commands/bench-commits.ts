import type { Store } from '../desk/ports.ts'

/** How often a second a deed gets done, by so many hands at a time, once everything is warm. */
export async function ratePerSecond(
  hands: number,
  seconds: number,
  deed: (i: number) => Promise<void>,
): Promise<number> {
  let next = 0
  const spend = async (forSeconds: number) => {
    const [first, began] = [next, performance.now()]
    const until = began + forSeconds * 1000
    const worker = async () => {
      while (performance.now() < until) await deed(next++)
    }
    await Promise.all(Array.from({ length: hands }, worker))
    return Math.round((next - first) / ((performance.now() - began) / 1000))
  }
  await spend(seconds / 2)
  return spend(seconds)
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
