import { z } from 'zod'
import type { Problem } from './problems.ts'
import type { Tier } from './tiers.ts'
import type { Json, World } from './world.ts'

/** Arguments as they arrive: every value a string, structures as JSON inside one. */
export type RawArguments = Readonly<Record<string, string>>

export type Method = {
  readonly tier: Tier
  readonly scopes: readonly string[]
  readonly token: 'bot' | 'app' | 'any'
  run(world: World, raw: RawArguments): Json
}

type Declared<S extends z.ZodObject> = {
  readonly tier: Tier
  /** Any one of these is enough. */
  readonly scopes?: readonly string[]
  readonly token?: Method['token']
  readonly takes: S
  run(world: World, args: z.infer<S>): Json
}

/** A method whose arguments are parsed before it runs; what cannot be parsed is `invalid_arguments`. */
export function method<S extends z.ZodObject>(declared: Declared<S>): Method {
  return {
    tier: declared.tier,
    scopes: declared.scopes ?? [],
    token: declared.token ?? 'bot',
    run(world, raw) {
      const parsed = declared.takes.safeParse(raw)
      if (parsed.success) return declared.run(world, parsed.data)
      const messages = parsed.error.issues.map(
        (issue) => `[ERROR] ${issue.message} [json-pointer:/${issue.path.join('/')}]`,
      )
      const named = parsed.error.issues.find((issue) => issue.code === 'custom')?.params?.error
      return {
        ...refuse(String(named ?? 'invalid_arguments')),
        response_metadata: { messages },
      }
    },
  }
}

export const answer = (fields: Json = {}): Json => ({ ok: true, ...fields })

export type Refusal = {
  readonly ok: false
  readonly error: string
  readonly errors?: readonly string[]
  readonly response_metadata?: { readonly messages: readonly string[] }
}

export function refuse(error: string, problems: readonly Problem[] = []): Refusal {
  const messages = problems.map((p) => `[ERROR] ${p.message} [json-pointer:${p.pointer}]`)
  return {
    ok: false,
    error,
    ...(problems.length > 0 && {
      errors: messages,
      response_metadata: { messages },
    }),
  }
}

/** A structure sent as JSON; `error` is what the platform calls a broken one. */
export const json = (error = 'invalid_arguments') =>
  z.string().transform((text, at): unknown => {
    try {
      return JSON.parse(text)
    } catch {
      at.addIssue({ code: 'custom', message: 'not JSON', params: { error } })
      return z.NEVER
    }
  })

export const flag = z.enum(['true', 'false', '1', '0']).transform((text) => text === 'true' || text === '1')
export const whole = z.string().regex(/^\d+$/).transform(Number)
