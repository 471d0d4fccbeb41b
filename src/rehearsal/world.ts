import type { Clock } from './clock.ts'
import type { FaultPlan } from './faults.ts'
import type { Ledger } from './ledger.ts'
import type { ResponseUrls } from './response-urls.ts'
import type { Rooms } from './rooms.ts'
import type { Roster } from './roster.ts'
import type { Shelf } from './shelf.ts'
import type { Tiers } from './tiers.ts'
import type { Traffic } from './traffic.ts'
import type { Triggers } from './triggers.ts'
import type { Views } from './views.ts'

export type Json = { readonly [field: string]: unknown }

export type Identity = {
  readonly team: {
    readonly id: string
    readonly name: string
    readonly domain: string
  }
  readonly app: string
  readonly bot: {
    readonly user: string
    readonly id: string
    readonly name: string
  }
}

/** One call of the Web API as it was seen from here. */
export type Call = {
  readonly method: string
  readonly arguments: Json
  /** `ok`, the error, or what happened on the way: `outage`, `ratelimited`. */
  readonly outcome: string
  readonly lost: boolean
  /** On the workspace's clock. */
  readonly at: string
}

/** All that the workspace is made of. Every part hides its own state. */
export type World = {
  readonly identity: Identity
  readonly secrets: {
    readonly signing: string
    readonly botToken: string
    readonly appToken?: string
  }
  /** Scopes that were granted; without a list everything is allowed. */
  readonly scopes?: readonly string[]
  readonly clock: Clock
  readonly roster: Roster
  readonly rooms: Rooms
  readonly ledger: Ledger
  readonly triggers: Triggers
  readonly views: Views
  readonly shelf: Shelf
  readonly responseUrls: ResponseUrls
  readonly tiers: Tiers
  readonly faults: FaultPlan
  readonly traffic: Traffic
  readonly calls: Call[]
  /** `http://127.0.0.1:<port>` */
  readonly origin: () => string
  /** Where a Socket Mode connection is opened, with a ticket that is good once. */
  readonly socketUrl: () => string
}
