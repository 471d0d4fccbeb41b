/** Allows so many at once and then one every so often, over milliseconds that the caller names. */
export type Bucket = {
  /** How many may go now. */
  free(nowMs: number): number
  /** When the next may go; `nowMs` or earlier when it may go now. */
  freeAtMs(nowMs: number): number
  /** Takes one, whether it may go or not; answers when it might. */
  take(nowMs: number): number
  /** Nothing that was taken counts any more. */
  isRested(nowMs: number): boolean
}

export function bucket({ atOnce, everyMs }: { readonly atOnce: number; readonly everyMs: number }): Bucket {
  /** Until when what was taken uses up its share of time, one after the other. */
  let busyUntilMs = Number.NEGATIVE_INFINITY

  function freeAtMs(nowMs: number): number {
    return Math.max(nowMs, busyUntilMs - (atOnce - 1) * everyMs)
  }

  return {
    freeAtMs,
    free: (nowMs) => Math.max(0, Math.floor(atOnce - Math.max(0, busyUntilMs - nowMs) / everyMs)),
    take(nowMs) {
      const atMs = freeAtMs(nowMs)
      busyUntilMs = Math.max(nowMs, busyUntilMs) + everyMs
      return atMs
    },
    isRested: (nowMs) => busyUntilMs <= nowMs,
  }
}
