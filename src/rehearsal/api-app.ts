import { z } from 'zod'
import { answer, json, method, refuse } from './api-method.ts'
import { checkBlocks } from './block-surfaces.ts'
import { checkMessage, type MessageArguments } from './message-limits.ts'
import { checkView } from './view-limits.ts'

const test = method({
  tier: 'hundreds',
  token: 'any',
  takes: z.object({ error: z.string().optional() }),
  run: (_, args) => (args.error ? refuse(args.error) : answer({ args })),
})

const whoAmI = method({
  tier: 'hundreds',
  token: 'any',
  takes: z.object({}),
  run: ({ identity, origin }) =>
    answer({
      url: `${origin()}/`,
      team: identity.team.name,
      team_id: identity.team.id,
      user: identity.bot.name,
      user_id: identity.bot.user,
      bot_id: identity.bot.id,
      is_enterprise_install: false,
    }),
})

const openConnection = method({
  tier: 'connecting',
  token: 'app',
  takes: z.object({}),
  run: (world) => answer({ url: world.socketUrl() }),
})

const bot = method({
  tier: 3,
  scopes: ['users:read'],
  takes: z.object({ bot: z.string().optional() }),
  run: ({ identity }, args) =>
    args.bot === undefined || args.bot === identity.bot.id
      ? answer({
          bot: {
            id: identity.bot.id,
            deleted: false,
            name: identity.bot.name,
            user_id: identity.bot.user,
            app_id: identity.app,
          },
        })
      : refuse('bot_not_found'),
})

const team = method({
  tier: 3,
  scopes: ['team:read'],
  takes: z.object({}),
  run: ({ identity }) => answer({ team: identity.team }),
})

const validate = method({
  tier: 'hundreds',
  takes: z.object({
    blocks: json().optional(),
    message: json().optional(),
    view: json().optional(),
  }),
  run(_, args) {
    if (Object.values(args).filter((part) => part !== undefined).length !== 1)
      return refuse('invalid_arguments')
    const view = args.view as { type?: unknown } | undefined
    const found = view
      ? checkView(view, view.type === 'home' ? 'home' : 'modal')
      : args.message
        ? // A missing text is not what this method looks for.
          checkMessage(args.message as MessageArguments).filter((p) => p.code !== 'no_text')
        : checkBlocks(args.blocks, 'message')
    return found.length === 0 ? answer() : { ...refuse('invalid_blocks'), errors: found }
  },
})

export const appMethods = {
  'api.test': test,
  'auth.test': whoAmI,
  'apps.connections.open': openConnection,
  'bots.info': bot,
  'team.info': team,
  'blocks.validate': validate,
}
