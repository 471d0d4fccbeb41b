import { readClock } from './clock.ts'
import type { Acknowledgement, Transport } from './deliveries.ts'
import { eventPayload } from './payloads.ts'
import type { Json, World } from './world.ts'

/** After the first failure: at once, then when a minute and when five minutes have passed. */
const retryAfterMs = [0, 60_000, 300_000]

export type EventPost = {
  /** Tells the app; resolves with the answer to the first attempt. Retries follow on the workspace's clock. */
  tell(event: Json): Promise<Acknowledgement>
  /** Sends the retries that are due. */
  makeDue(): void
  readonly waiting: () => number
}

type Retry = {
  readonly payload: Json
  readonly number: number
  readonly failedAtMs: number
  readonly reason: string
}

/** Events are told again when nobody acknowledges them; commands and interactions never are. */
export function openEventPost(world: World, transport: () => Transport): EventPost {
  let waiting: Retry[] = []
  const dueAtMs = (retry: Retry) => retry.failedAtMs + (retryAfterMs[retry.number - 1] ?? 0)
  const attempt = (payload: Json, before?: Retry) =>
    world.traffic.track(`event ${(payload.event as Json).type}`, async () => {
      const retry = before && { number: before.number, reason: before.reason }
      const result = await transport().send({
        kind: 'event',
        payload,
        ...(retry && { retry }),
      })
      const number = (before?.number ?? 0) + 1
      // "No retry" is heard on an answer only: who does not answer cannot refuse.
      if (!result.acknowledged && !result.noRetry && number <= retryAfterMs.length) {
        const failedAtMs = before?.failedAtMs ?? readClock(world.clock)
        waiting.push({
          payload,
          number,
          failedAtMs,
          reason: result.reason ?? 'unknown_error',
        })
        makeDue()
      }
      return result
    })
  const makeDue = () => {
    const now = readClock(world.clock)
    const due = waiting.filter((retry) => dueAtMs(retry) <= now)
    waiting = waiting.filter((retry) => dueAtMs(retry) > now)
    for (const retry of due) void attempt(retry.payload, retry)
  }
  return {
    tell: (event) => attempt(eventPayload(world, event)),
    makeDue,
    waiting: () => waiting.length,
  }
}
