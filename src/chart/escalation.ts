import { z } from 'zod'
import { Instant } from './day.ts'
import { Because, PersonId, signed, Words } from './signing.ts'

/** How soon a human must act on a red flag: at once, today, or at the next session. */
export const Tier = z.enum(['emergency', 'urgent', 'next-session'])
export type Tier = z.infer<typeof Tier>

export const Disposition = z.enum([
  'seen in person',
  'called',
  'referred',
  'sent to emergency care',
  'continue',
  'programme stopped',
])

export const Callee = z.object({ person: PersonId, ackWithinMinutes: z.number().int().positive() })

export const EscalationOpened = z.object({
  ...signed,
  kind: z.literal('escalation-opened'),
  about: z.string(),
  tier: z.enum(['emergency', 'urgent']),
  because: z.array(Because).min(1),
  /** Copied from the clinic when it opens: later edits do not touch an alarm already ringing (D4). */
  callList: z.array(Callee).min(1),
})

export const CallMade = z.object({
  ...signed,
  kind: z.literal('call-made'),
  escalation: z.string(),
  call: z.number().int().positive(),
  person: PersonId,
  ackBy: Instant,
})

export const CallAcknowledged = z.object({
  ...signed,
  kind: z.literal('call-acknowledged'),
  escalation: z.string(),
})

export const EscalationClosed = z.object({
  ...signed,
  kind: z.literal('escalation-closed'),
  escalation: z.string(),
  disposition: Disposition,
  words: Words.min(1),
})
