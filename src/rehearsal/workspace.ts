import { once } from 'node:events'
import type { Clock } from './clock.ts'
import { type ComingsAndGoings, comingsAndGoings } from './comings-and-goings.ts'
import type { Acknowledgement, Envelope, Transport } from './deliveries.ts'
import { openEventPost } from './event-post.ts'
import { type Faults, openFaults } from './faults.ts'
import { httpTransport, post, type RawResponse } from './http-transport.ts'
import { openLedger } from './ledger.ts'
import { asPerson, type Person } from './person.ts'
import { openResponseUrls } from './response-urls.ts'
import { openRooms, type Rooms } from './rooms.ts'
import { openRoster, type Roster } from './roster.ts'
import { openShelf, type Shelf } from './shelf.ts'
import { openSocketTransport, type SocketTransport } from './socket-transport.ts'
import { openTiers } from './tiers.ts'
import { type Drain, openTraffic } from './traffic.ts'
import { openTriggers } from './triggers.ts'
import { openViews } from './views.ts'
import { openServer } from './workspace-server.ts'
import type { Call, Identity, Json, World } from './world.ts'

export type WorkspaceOptions = {
  readonly signingSecret: string
  readonly botToken: string
  readonly appToken?: string
  readonly botName?: string
  /** Scopes that were granted; without a list every scope is. */
  readonly scopes?: readonly string[]
  readonly clock: Clock
  /** Any free one unless named. */
  readonly port?: number
}

/** A stand-in for a chat workspace, on loopback, as strict as a real one. It knows nothing of the bot. */
export type Workspace = ComingsAndGoings & {
  /** What the Web API client takes as `slackApiUrl`. */
  readonly apiUrl: string
  readonly identity: Identity
  readonly people: Pick<Roster, 'add' | 'change' | 'find' | 'all'>
  readonly channels: Pick<Rooms, 'add' | 'find' | 'all'>
  readonly files: Pick<Shelf, 'find' | 'all'>
  /** Every call of the Web API, in order. */
  readonly calls: readonly Call[]
  readonly faults: Faults
  /** Where the app is listening, and how it says that it has finished what it began. */
  deliverTo(where: ({ readonly http: string } | { readonly socket: true }) & { readonly drain?: Drain }): void
  readonly socket: Pick<SocketTransport, 'connections' | 'disconnect'>
  as(id: string): Person
  /** Any event, for example `app_uninstalled`. */
  event(type: string, fields?: Json): Promise<Acknowledgement>
  /** One delivery as it is given, for stale, future-dated and forged signatures. */
  deliver(envelope: Envelope): Promise<Acknowledgement>
  /** One request to the app as it is given: malformed, unsigned, whatever. */
  raw(headers: Record<string, string>, body: string | Buffer): Promise<RawResponse>
  /** Resolves when nothing is under way in either direction and the bot's own drain has resolved. */
  quiet(drain?: Drain): Promise<void>
  close(): Promise<void>
}

export async function openWorkspace(options: WorkspaceOptions): Promise<Workspace> {
  let address: { http: string } | undefined
  let transport: Transport = {
    send: async () => ({
      acknowledged: false,
      status: 0,
      reason: 'connection_failed',
    }),
  }
  const world = openWorld(options, {
    origin: () => `http://127.0.0.1:${server.port}`,
    socketUrl: () => socket.url(),
  })
  const server = await openServer(world, options.port ?? 0)
  const socket = openSocketTransport(server, world.origin, world.identity.app)
  const events = openEventPost(world, () => transport)
  const deliver = (envelope: Envelope) =>
    world.traffic.track(`delivery of a ${envelope.kind}`, () => transport.send(envelope))
  const stopWatching = options.clock.whenPushed(events.makeDue)
  // A clock that runs by itself pushes nobody.
  const watch = setInterval(events.makeDue, 1000).unref()
  return {
    apiUrl: `${world.origin()}/api/`,
    identity: world.identity,
    people: world.roster,
    channels: world.rooms,
    files: world.shelf,
    calls: world.calls,
    faults: world.faults,
    socket,
    deliverTo(where) {
      world.traffic.drainWith(where.drain)
      address = 'http' in where ? where : undefined
      transport = 'http' in where ? httpTransport(where.http, options.signingSecret) : socket
    },
    ...comingsAndGoings(world, events),
    as: (id) => asPerson(world, { deliver, events }, id),
    event: (type, fields = {}) => events.tell({ type, event_ts: world.ledger.stamp(), ...fields }),
    deliver,
    raw(headers, body) {
      if (!address) throw new Error('nobody listens over HTTP yet')
      return post(address.http, headers, body)
    },
    quiet: (drain) => world.traffic.quiet(drain),
    async close() {
      stopWatching()
      clearInterval(watch)
      socket.close()
      const closed = once(server, 'close')
      server.close()
      server.closeAllConnections()
      await closed
    },
  }
}

function openWorld(options: WorkspaceOptions, addresses: Pick<World, 'origin' | 'socketUrl'>): World {
  const { clock, signingSecret, botToken, appToken, scopes, botName = 'bot' } = options
  return {
    identity: {
      team: { id: 'T0REHEARSAL', name: 'Rehearsal', domain: 'rehearsal' },
      app: 'A0REHEARSAL',
      bot: { user: 'U0BOT', id: 'B0BOT', name: botName },
    },
    secrets: {
      signing: signingSecret,
      botToken,
      ...(appToken && { appToken }),
    },
    ...(scopes && { scopes }),
    clock,
    roster: openRoster(),
    rooms: openRooms(),
    ledger: openLedger(clock),
    triggers: openTriggers(clock),
    views: openViews(),
    shelf: openShelf(clock),
    responseUrls: openResponseUrls(clock),
    tiers: openTiers(clock),
    faults: openFaults(),
    traffic: openTraffic(),
    calls: [],
    ...addresses,
  }
}
