import { z } from 'zod'
import { answer, json, method, type Refusal, refuse } from './api-method.ts'
import { viewPortrait } from './portraits.ts'
import { checkView, type SentView } from './view-limits.ts'
import type { OpenView } from './views.ts'
import type { World } from './world.ts'

const triggered = { trigger_id: z.string().default(''), view: json() }

const open = method({
  tier: 4,
  takes: z.object(triggered),
  run(world, args) {
    const refused = viewRefusal(world, args.view, 'modal')
    if (refused) return refused
    const trigger = world.triggers.redeem(args.trigger_id)
    if ('refused' in trigger) return refuse(trigger.refused)
    return shown(world, world.views.open(trigger.person, args.view as SentView))
  },
})

const push = method({
  tier: 4,
  takes: z.object(triggered),
  run(world, args) {
    const refused = viewRefusal(world, args.view, 'modal')
    if (refused) return refused
    const trigger = world.triggers.redeem(args.trigger_id)
    if ('refused' in trigger) return refuse(trigger.refused)
    // Only something done inside an open modal can put another one over it.
    if (!trigger.modal || !world.views.stack(trigger.person).some((v) => v.id === trigger.modal))
      return refuse('invalid_trigger_id')
    const view = world.views.push(trigger.person, args.view as SentView)
    return 'refused' in view ? refuse(view.refused) : shown(world, view)
  },
})

const update = method({
  tier: 4,
  takes: z.object({
    view_id: z.string().optional(),
    external_id: z.string().optional(),
    hash: z.string().optional(),
    view: json(),
  }),
  run(world, args) {
    const found = world.views.find({
      ...(args.view_id && { id: args.view_id }),
      ...(args.external_id && { externalId: args.external_id }),
    })
    if (!found) return refuse('not_found')
    const refused = viewRefusal(world, args.view, found.sent.type, found)
    if (refused) return refused
    if (args.hash !== undefined && args.hash !== found.hash) return refuse('hash_conflict')
    return shown(world, world.views.update(found, args.view as SentView))
  },
})

const publish = method({
  tier: 4,
  takes: z.object({
    user_id: z.string().default(''),
    hash: z.string().optional(),
    view: json(),
  }),
  run(world, args) {
    if (!world.roster.find(args.user_id)) return refuse('invalid_arguments')
    const before = world.views.home(args.user_id)
    const refused = viewRefusal(world, args.view, 'home', before)
    if (refused) return refused
    if (args.hash !== undefined && args.hash !== before?.hash) return refuse('hash_conflict')
    return shown(world, world.views.publish(args.user_id, args.view as SentView))
  },
})

export const viewMethods = {
  'views.open': open,
  'views.push': push,
  'views.update': update,
  'views.publish': publish,
}

/** What refuses a view wherever it comes from: a method or the answer to a submission. */
export function viewRefusal(
  world: World,
  view: unknown,
  surface: 'modal' | 'home',
  inPlaceOf?: OpenView,
): Refusal | undefined {
  const problems = checkView(view, surface)
  const tooLarge = problems.find((p) => p.code === 'view_too_large')
  if (problems.length > 0) return refuse(tooLarge?.code ?? 'invalid_arguments', problems)
  const sent = view as SentView
  const holder = world.views.find({
    ...(sent.external_id && { externalId: sent.external_id }),
  })
  if (holder && holder !== inPlaceOf) return refuse('duplicate_external_id')
  const missing = world.shelf.unready(sent.blocks)
  if (missing.length === 0) return undefined
  const words = `invalid slack file: ${missing.join(', ')}`
  return refuse('invalid_arguments', [{ pointer: '/blocks', code: 'invalid_slack_file', message: words }])
}

const shown = (world: World, view: OpenView) => answer({ view: viewPortrait(world, view) })
