import { z } from 'zod'
import { Instant } from './day.ts'
import { Because, PersonId, signed, Words } from './signing.ts'

/** How soon a human must act on a red flag: at once, today, or at the next session. */
export const Tier = z.enum(['emergency', 'urgent', 'next-session'])
export type Tier = z.infer<typeof Tier>

/** The tiers that ring. */
export const CallTier = Tier.extract(['emergency', 'urgent'])
export type CallTier = z.infer<typeof CallTier>

/**
 * What a call is about: the body (treating therapist and those after), the mind (the licensed person and nobody
 * else), or an alarm that did not do what its list says (the clinic lead).
 */
export const Concern = z.enum(['body', 'support', 'audit'])
export type Concern = z.infer<typeof Concern>

export const Disposition = z.enum([
  'seen in person',
  'called',
  'referred',
  'sent to emergency care',
  'continue',
  'programme stopped',
])

export const Callee = z.object({ person: PersonId, ackWithinMinutes: z.number().int().positive() })
export type Callee = z.infer<typeof Callee>

export const EscalationOpened = z.object({
  ...signed,
  kind: z.literal('escalation-opened'),
  concern: Concern,
  about: z.string(),
  tier: CallTier,
  because: z.array(Because).min(1),
  /** Copied from the clinic when it opens: later edits do not touch an alarm already ringing (D4). */
  callList: z.array(Callee).min(1),
})

/** The same event again: what is known now. A worse sign rings anew; the same one only updates. */
export const EscalationUpdated = z.object({
  ...signed,
  kind: z.literal('escalation-updated'),
  escalation: z.string(),
  about: z.string(),
  tier: CallTier,
  because: z.array(Because).min(1),
  worse: z.boolean(),
})

export const WhyCalled = z.enum([
  'opened',
  'no answer',
  'not reachable',
  'worse',
  'handed over',
  'back on the list',
])

export const CallMade = z.object({
  ...signed,
  kind: z.literal('call-made'),
  escalation: z.string(),
  call: z.number().int().positive(),
  person: PersonId,
  why: WhyCalled,
  ackBy: Instant,
})

const ofCall = { ...signed, escalation: z.string(), call: z.number().int().positive() }

/** The platform took the message: its receipt is in the store. It says nothing about anybody having seen it. */
export const CallSent = z.object({ ...ofCall, kind: z.literal('call-sent') })

/** The message was looked for and stands in the person's conversation. Still not: seen. */
export const CallDelivered = z.object({ ...ofCall, kind: z.literal('call-delivered') })

/** It can never be delivered: the account is gone. The next person is called at once. */
export const CallFailed = z.object({ ...ofCall, kind: z.literal('call-failed'), words: z.string().max(300) })

export const CallAcknowledged = z.object({
  ...signed,
  kind: z.literal('call-acknowledged'),
  escalation: z.string(),
})

export const HandedOver = z.object({
  ...signed,
  kind: z.literal('handed-over'),
  escalation: z.string(),
  to: PersonId,
  words: Words.optional(),
})

/** Acknowledged and not closed in time: whoever has it is reminded, once. */
export const Reminded = z.object({ ...signed, kind: z.literal('reminded'), escalation: z.string() })

/** Reminded and still not closed: the call goes back on the list. */
export const ReListed = z.object({ ...signed, kind: z.literal('re-listed'), escalation: z.string() })

export const EscalationClosed = z.object({
  ...signed,
  kind: z.literal('escalation-closed'),
  escalation: z.string(),
  disposition: Disposition,
  words: Words.min(1),
})

export const WhatBreached = z.enum([
  'late',
  'not sent',
  'off the list',
  'no hold',
  'no reminder',
  'nobody answers',
])

/** What the auditor found: an escalation that did not do what its list says. Itself called. */
export const Breach = z.object({
  ...signed,
  kind: z.literal('breach'),
  escalation: z.string(),
  what: WhatBreached,
  words: z.string().max(300),
})
