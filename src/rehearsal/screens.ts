import type { Block } from './block-limits.ts'
import { readable } from './readable.ts'
import type { OpenView, State } from './views.ts'
import type { World } from './world.ts'

/** A modal or a Home as it stands in front of somebody. */
export type Screen = {
  readonly id: string
  readonly callbackId: string
  readonly privateMetadata: string
  readonly title: string
  readonly submit?: string
  readonly blocks: readonly Block[]
  /** By block id: text, number as text, option value, list of them, day, time; null when empty. */
  readonly values: Readonly<Record<string, unknown>>
  readonly state: State
  readonly errors: Readonly<Record<string, string>>
  /** How many modals lie under this one. */
  readonly under: number
  readonly lines: readonly string[]
}

export function screenOf(world: World, view: OpenView): Screen {
  const { sent } = view
  const title = 'title' in sent ? sent.title : undefined
  const submit = 'submit' in sent ? sent.submit?.text : undefined
  return {
    id: view.id,
    callbackId: sent.callback_id ?? '',
    privateMetadata: sent.private_metadata ?? '',
    title: title?.text ?? '',
    ...(submit !== undefined && { submit }),
    blocks: view.blocks,
    values: valuesOf(view.state),
    state: view.state,
    errors: view.errors,
    under: Math.max(0, world.views.stack(view.person).indexOf(view)),
    lines: readable({ title, blocks: view.blocks }, (id) => nameIn(world, id)),
  }
}

export function nameIn(world: World, id: string): string | undefined {
  if (id === world.identity.bot.user) return world.identity.bot.name
  return world.roster.find(id)?.name ?? world.rooms.find(id)?.name
}

function valuesOf(state: State): Record<string, unknown> {
  return Object.fromEntries(
    Object.entries(state).flatMap(([blockId, row]) => {
      const held = Object.values(row)[0]
      if (!held) return []
      const { type, timezone, ...field } = held
      return [[blockId, simple(Object.values(field)[0])]]
    }),
  )
}

function simple(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(simple)
  return typeof value === 'object' && value !== null && 'value' in value ? value.value : (value ?? null)
}
