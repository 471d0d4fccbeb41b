import { createHmac } from 'node:crypto'

/**
 * The v0 signature of one request: HMAC-SHA256 of `v0:<timestamp>:<raw body>`.
 * @param at unix seconds, real time unless a stale or future-dated request is wanted
 */
export function sign(body: string, at: number, secret: string): string {
  return `v0=${createHmac('sha256', secret).update(`v0:${at}:${body}`).digest('hex')}`
}

export type SignatureFault = {
  /** Moves the timestamp away from real time: negative is old, positive is in the future. */
  readonly offsetSeconds?: number
  /** Signs with another secret, as a forger would. */
  readonly secret?: string
}

/** The two headers that every delivery carries. */
export function signatureHeaders(body: string, secret: string, fault: SignatureFault = {}) {
  const at = Math.floor(Date.now() / 1000) + (fault.offsetSeconds ?? 0)
  return {
    'x-slack-request-timestamp': String(at),
    'x-slack-signature': sign(body, at, fault.secret ?? secret),
  }
}
