/** What can be made to go wrong with the Web API, and how often it did. */
export type Faults = {
  /** Every call, upload and late reply is answered 503 and nothing is done. */
  outage(on: boolean): void
  /** Every answer is held back for so long, in real time, after the work was done. */
  slow(ms: number): void
  /** The next calls are carried out, but the connection breaks before the answer. */
  loseReply(which: { readonly method: string; readonly times: number }): void
  /** The next calls are refused with this error and nothing is done. */
  refuse(which: { readonly method: string; readonly error: string; readonly times: number }): void
  /** Whether there is an outage now. */
  failing(): boolean
  rateLimits(on: boolean): void
  /** How long an uploaded file stays in processing, on the workspace's clock. */
  fileProcessing(seconds: number): void
  readonly counts: Readonly<Record<'outage' | 'slow' | 'lost' | 'refused' | 'limited', number>>
}

export type FaultPlan = Faults & {
  readonly standing: {
    readonly outage: boolean
    readonly slowMs: number
    readonly rateLimits: boolean
    readonly fileProcessingSeconds: number
  }
  readonly takeLoss: (method: string) => boolean
  readonly takeRefusal: (method: string) => string | undefined
  readonly count: (what: keyof Faults['counts']) => void
}

export function openFaults(): FaultPlan {
  const standing = {
    outage: false,
    slowMs: 0,
    rateLimits: true,
    fileProcessingSeconds: 0,
  }
  const counts = { outage: 0, slow: 0, lost: 0, refused: 0, limited: 0 }
  const losses = new Map<string, number>()
  const refusals: { method: string; error: string; times: number }[] = []
  return {
    standing,
    counts,
    outage: (on) => {
      standing.outage = on
    },
    failing: () => standing.outage,
    slow: (ms) => {
      standing.slowMs = ms
    },
    loseReply: ({ method, times }) => {
      losses.set(method, times)
    },
    refuse: (which) => {
      refusals.push({ ...which })
    },
    rateLimits: (on) => {
      standing.rateLimits = on
    },
    fileProcessing: (seconds) => {
      standing.fileProcessingSeconds = seconds
    },
    takeLoss(method) {
      const left = losses.get(method) ?? 0
      losses.set(method, Math.max(0, left - 1))
      return left > 0
    },
    takeRefusal(method) {
      const next = refusals.find((r) => r.method === method && r.times > 0)
      if (!next) return undefined
      next.times -= 1
      return next.error
    },
    count: (what) => {
      counts[what] += 1
    },
  }
}
