import { z } from 'zod'
import { answer, flag, method, type Refusal, refuse, whole } from './api-method.ts'
import { messagePortrait, roomPortrait } from './portraits.ts'
import type { Room } from './rooms.ts'
import type { World } from './world.ts'

const paged = { limit: whole.optional(), cursor: z.string().optional() }

const open = method({
  tier: 3,
  scopes: ['im:write', 'mpim:write'],
  takes: z.object({
    users: z.string().optional(),
    channel: z.string().optional(),
    return_im: flag.optional(),
  }),
  run(world, args) {
    if (args.channel) {
      const known = world.rooms.find(args.channel)
      return known ? answer({ channel: roomPortrait(world, known) }) : refuse('channel_not_found')
    }
    const ids = (args.users ?? '').split(',').filter((id) => id !== '')
    if (ids.length === 0) return refuse('users_list_not_supplied')
    const people = ids.map((id) => world.roster.find(id))
    if (people.some((person) => person === undefined)) return refuse('user_not_found')
    if (people.some((person) => person?.deactivated)) return refuse('user_disabled')
    const already = world.rooms.directIfOpen(ids) !== undefined
    const room = world.rooms.direct(ids)
    const channel = args.return_im ? roomPortrait(world, room) : { id: room.id }
    return answer({
      channel,
      ...(already && { no_op: true, already_open: true }),
    })
  },
})

const describe = method({
  tier: 3,
  scopes: ['channels:read', 'groups:read', 'im:read', 'mpim:read'],
  takes: z.object({
    channel: z.string().default(''),
    include_num_members: flag.optional(),
  }),
  run(world, args) {
    const room = readableRoom(world, args.channel)
    if ('ok' in room) return room
    const number = args.include_num_members ? { num_members: membersOf(world, room).length } : {}
    return answer({ channel: { ...roomPortrait(world, room), ...number } })
  },
})

const members = method({
  tier: 4,
  scopes: ['channels:read', 'groups:read', 'im:read', 'mpim:read'],
  takes: z.object({ channel: z.string().default(''), ...paged }),
  run(world, args) {
    const room = readableRoom(world, args.channel)
    if ('ok' in room) return room
    const page = pageOf(membersOf(world, room), args)
    return 'ok' in page ? page : answer({ members: page.items, ...page.next })
  },
})

const list = method({
  tier: 2,
  scopes: ['channels:read', 'groups:read', 'im:read', 'mpim:read'],
  takes: z.object({
    types: z.string().default('public_channel'),
    exclude_archived: flag.optional(),
    ...paged,
  }),
  run(world, args) {
    const kinds = {
      public_channel: 'channel',
      private_channel: 'private',
      im: 'direct',
      mpim: 'group',
    }
    const wanted = args.types.split(',').map((type) => kinds[type.trim() as keyof typeof kinds])
    const rooms = world.rooms
      .all()
      .filter((room) => wanted.includes(room.kind) && (room.kind === 'channel' || room.bot))
      .filter((room) => !(args.exclude_archived && room.archived))
    const page = pageOf(rooms, args)
    return 'ok' in page
      ? page
      : answer({
          channels: page.items.map((room) => roomPortrait(world, room)),
          ...page.next,
        })
  },
})

const span = {
  oldest: z.string().optional(),
  latest: z.string().optional(),
  inclusive: flag.optional(),
  include_all_metadata: flag.optional(),
}
type Span = {
  oldest?: string | undefined
  latest?: string | undefined
  inclusive?: boolean | undefined
}

const history = method({
  tier: 3,
  scopes: ['channels:history', 'groups:history', 'im:history', 'mpim:history'],
  takes: z.object({ channel: z.string().default(''), ...span, ...paged }),
  run(world, args) {
    const room = heldRoom(world, args.channel)
    if ('ok' in room) return room
    const held = world.ledger
      .inRoom(room.id)
      .filter((m) => m.ephemeralTo === undefined && (m.threadTs === undefined || m.threadTs === m.ts))
      .filter((m) => within(m.ts, args))
      .toReversed()
    const page = pageOf(held, args)
    if ('ok' in page) return page
    const messages = page.items.map((m) => messagePortrait(world, m, args.include_all_metadata))
    return answer({
      messages,
      has_more: page.more,
      ...(page.more && page.next),
    })
  },
})

const replies = method({
  tier: 3,
  scopes: ['channels:history', 'groups:history', 'im:history', 'mpim:history'],
  takes: z.object({
    channel: z.string().default(''),
    ts: z.string(),
    ...span,
    ...paged,
  }),
  run(world, args) {
    const room = heldRoom(world, args.channel)
    if ('ok' in room) return room
    const thread = world.ledger
      .inRoom(room.id)
      .filter((m) => m.ephemeralTo === undefined && (m.ts === args.ts || m.threadTs === args.ts))
    if (thread.length === 0) return refuse('thread_not_found')
    const page = pageOf(
      thread.filter((m) => m.ts === args.ts || within(m.ts, args)),
      args,
    )
    if ('ok' in page) return page
    const messages = page.items.map((m) => messagePortrait(world, m, args.include_all_metadata))
    return answer({
      messages,
      has_more: page.more,
      ...(page.more && page.next),
    })
  },
})

export const conversationMethods = {
  'conversations.open': open,
  'conversations.info': describe,
  'conversations.members': members,
  'conversations.list': list,
  'conversations.history': history,
  'conversations.replies': replies,
}

/** Public channels can be looked at from outside; private ones are not even admitted to exist. */
function readableRoom(world: World, id: string): Room | Refusal {
  const room = world.rooms.find(id)
  return room && (room.kind === 'channel' || room.bot) ? room : refuse('channel_not_found')
}

function heldRoom(world: World, id: string): Room | Refusal {
  const room = readableRoom(world, id)
  return 'ok' in room || room.bot ? room : refuse('not_in_channel')
}

function membersOf(world: World, room: Room): string[] {
  return [...room.members, ...(room.bot ? [world.identity.bot.user] : [])]
}

function within(ts: string, { oldest, latest, inclusive = false }: Span): boolean {
  const at = Number(ts)
  const from = Number(oldest ?? 0)
  const until = Number(latest ?? Number.POSITIVE_INFINITY)
  return inclusive ? at >= from && at <= until : at > from && at < until
}

type Paging = { limit?: number | undefined; cursor?: string | undefined }

/** One page of a list; cursors name where the next page starts. */
export function pageOf<T>(all: readonly T[], { limit = 100, cursor }: Paging) {
  if (limit < 1 || limit > 1000) return refuse('invalid_limit')
  const start = cursor ? Number(Buffer.from(cursor, 'base64url').toString().replace('next:', '')) : 0
  if (!Number.isInteger(start)) return refuse('invalid_cursor')
  const more = start + limit < all.length
  const nextCursor = more ? Buffer.from(`next:${start + limit}`).toString('base64url') : ''
  return {
    items: all.slice(start, start + limit),
    more,
    next: { response_metadata: { next_cursor: nextCursor } },
  }
}
