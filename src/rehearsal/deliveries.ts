import type { SignatureFault } from './signing.ts'
import type { Json } from './world.ts'

/** Something that happened in the workspace and that the app is told about. */
export type Envelope = {
  readonly kind: 'command' | 'interaction' | 'event'
  readonly payload: Json
  readonly retry?: { readonly number: number; readonly reason: string }
  readonly signature?: SignatureFault
}

/** What came back within three seconds. */
export type Acknowledgement = {
  readonly acknowledged: boolean
  /** HTTP status; 0 when there was none. Over a socket 200 stands for an acknowledgement. */
  readonly status: number
  /** What the app sent along: a structure, a text, or undefined. */
  readonly answer?: unknown
  /** Why it counts as not acknowledged, in the platform's words for retries. */
  readonly reason?: 'http_timeout' | 'connection_failed' | 'http_error'
  /** The app asked not to be told again. */
  readonly noRetry?: boolean
}

export type Transport = { send(envelope: Envelope): Promise<Acknowledgement> }

/** Real time: the app runs in real time, whatever the clock of the workspace says. */
export const acknowledgeWithinMs = 3000
