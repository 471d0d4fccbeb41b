import { setTimeout as pause } from 'node:timers/promises'
import type { RawArguments } from './api-method.ts'
import { refuse } from './api-method.ts'
import { methods } from './api-methods.ts'
import type { Json, World } from './world.ts'

export type Knock = {
  readonly method: string
  readonly token?: string
  readonly raw: RawArguments
}

/** An answer as it goes over the wire; `lost` breaks the connection instead of sending it. */
export type WireAnswer = {
  readonly status: number
  readonly headers: Readonly<Record<string, string>>
  readonly body: Json
  readonly lost: boolean
}

/** One call of the Web API, with everything that may refuse it before and hide it after. */
export async function answerCall(world: World, knock: Knock): Promise<WireAnswer> {
  const { status, body, headers = {} } = decide(world, knock)
  const lost = status === 200 && world.faults.takeLoss(knock.method)
  if (lost) world.faults.count('lost')
  const outcome = status === 503 ? 'outage' : body.ok === true ? 'ok' : String(body.error)
  world.calls.push({
    method: knock.method,
    arguments: legible(knock.raw),
    outcome,
    lost,
    at: world.clock.now(),
  })
  if (world.faults.standing.slowMs > 0) {
    world.faults.count('slow')
    await pause(world.faults.standing.slowMs)
  }
  return { status, headers, body, lost }
}

type Decision = {
  status: number
  body: Json
  headers?: Record<string, string>
}

function decide(world: World, knock: Knock): Decision {
  const { faults } = world
  if (faults.standing.outage) {
    faults.count('outage')
    return { status: 503, body: { ok: false, error: 'service_unavailable' } }
  }
  const method = methods.get(knock.method)
  if (!method) return ok({ ...refuse('unknown_method'), req_method: knock.method })
  const unknown = tokenRefusal(world, method.token, knock.token)
  if (unknown) return ok(refuse(unknown))
  if (world.scopes && method.scopes.length > 0 && !method.scopes.some((s) => world.scopes?.includes(s)))
    return ok({
      ...refuse('missing_scope'),
      needed: method.scopes.join(','),
      provided: world.scopes.join(','),
    })
  const waitSeconds = faults.standing.rateLimits
    ? world.tiers.count(knock.method, method.tier, knock.raw.channel)
    : undefined
  if (waitSeconds !== undefined) {
    faults.count('limited')
    return {
      status: 429,
      headers: { 'retry-after': String(waitSeconds) },
      body: refuse('ratelimited'),
    }
  }
  const refusal = faults.takeRefusal(knock.method)
  if (refusal) {
    faults.count('refused')
    return ok(refuse(refusal))
  }
  return ok(method.run(world, knock.raw))
}

const ok = (body: Json): Decision => ({ status: 200, body })

function tokenRefusal(world: World, wanted: 'bot' | 'app' | 'any', token?: string): string | undefined {
  if (wanted === 'any' && token === undefined) return undefined
  if (!token) return 'not_authed'
  const { botToken, appToken } = world.secrets
  if (token !== botToken && token !== appToken) return 'invalid_auth'
  if (wanted === 'any') return undefined
  return (wanted === 'app') === (token === appToken) ? undefined : 'not_allowed_token_type'
}

/** Structures as structures, for whoever reads the list of calls; tokens stay out of it. */
function legible(raw: RawArguments): Json {
  const read = (value: string): unknown => {
    if (!/^[[{]/.test(value)) return value
    try {
      return JSON.parse(value)
    } catch {
      return value
    }
  }
  return Object.fromEntries(Object.entries(raw).flatMap(([k, v]) => (k === 'token' ? [] : [[k, read(v)]])))
}
