import { z } from 'zod'
import { pageOf } from './api-conversations.ts'
import { answer, flag, method, refuse, whole } from './api-method.ts'
import { readClock } from './clock.ts'
import { memberPortrait } from './portraits.ts'
import type { Json, World } from './world.ts'

const describe = method({
  tier: 4,
  scopes: ['users:read'],
  takes: z.object({
    user: z.string().default(''),
    include_locale: flag.optional(),
  }),
  run(world, args) {
    if (args.user === world.identity.bot.user) return answer({ user: botPortrait(world) })
    const member = world.roster.find(args.user)
    return member ? answer({ user: memberPortrait(world, member) }) : refuse('user_not_found')
  },
})

const list = method({
  tier: 2,
  scopes: ['users:read'],
  takes: z.object({ limit: whole.optional(), cursor: z.string().optional() }),
  run(world, args) {
    const everybody = [
      ...world.roster.all().map((member) => memberPortrait(world, member)),
      botPortrait(world),
    ]
    const page = pageOf(everybody, args)
    return 'ok' in page ? page : answer({ members: page.items, ...page.next })
  },
})

const doNotDisturb = method({
  tier: 3,
  scopes: ['dnd:read'],
  takes: z.object({ user: z.string().default('') }),
  run(world, args) {
    const member = world.roster.find(args.user)
    if (!member) return refuse('user_not_found')
    const now = readClock(world.clock)
    const until = member.snoozedUntilAt ? Date.parse(member.snoozedUntilAt) : 0
    const snoozed = until > now
    return answer({
      dnd_enabled: false,
      next_dnd_start_ts: 1,
      next_dnd_end_ts: 1,
      snooze_enabled: snoozed,
      ...(snoozed && {
        snooze_endtime: Math.floor(until / 1000),
        snooze_remaining: Math.floor((until - now) / 1000),
      }),
    })
  },
})

export const peopleMethods = {
  'users.info': describe,
  'users.list': list,
  'dnd.info': doNotDisturb,
}

function botPortrait(world: World): Json {
  const { bot, team, app } = world.identity
  return {
    id: bot.user,
    team_id: team.id,
    name: bot.name,
    deleted: false,
    real_name: bot.name,
    profile: {
      real_name: bot.name,
      display_name: bot.name,
      bot_id: bot.id,
      api_app_id: app,
      team: team.id,
    },
    is_bot: true,
    is_restricted: false,
    is_ultra_restricted: false,
  }
}
