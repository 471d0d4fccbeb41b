import { randomBytes } from 'node:crypto'
import type { Block, Element } from './block-limits.ts'
import { elementsOf } from './block-surfaces.ts'
import { initialValue, type StateValue } from './form-values.ts'
import { withBlockIds } from './ledger.ts'
import type { SentView } from './view-limits.ts'

const maxStack = 3

/** What was typed and chosen so far: block id, then action id. */
export type State = Record<string, Record<string, StateValue>>

export type OpenView = {
  readonly id: string
  readonly person: string
  /** Changes with every update; an update that names an older one is refused. */
  hash: string
  sent: SentView
  blocks: Block[]
  state: State
  /** What the app or the form holds against the answers, by block id. */
  errors: Readonly<Record<string, string>>
  /** The view at the bottom of its stack. */
  readonly rootId: string
  readonly previousId: string | null
}

export type Views = {
  /** Bottom first. */
  stack(person: string): readonly OpenView[]
  home(person: string): OpenView | undefined
  find(by: { readonly id?: string; readonly externalId?: string }): OpenView | undefined
  open(person: string, sent: SentView): OpenView
  push(person: string, sent: SentView): OpenView | { readonly refused: 'push_limit_reached' }
  update(view: OpenView, sent: SentView): OpenView
  publish(person: string, sent: SentView): OpenView
  /** Takes the top away, and with `all` everything under it too. Answers with what was closed. */
  close(person: string, all?: boolean): readonly OpenView[]
}

export function openViews(): Views {
  const stacks = new Map<string, OpenView[]>()
  const homes = new Map<string, OpenView>()
  const stack = (person: string) => stacks.get(person) ?? []
  const everything = () => [...[...stacks.values()].flat(), ...homes.values()]
  const put = (person: string, sent: SentView, under?: OpenView): OpenView => {
    const id = `V${randomBytes(5).toString('hex').toUpperCase()}`
    const blocks = withBlockIds(sent.blocks)
    const state = stateOf(blocks)
    const stood = {
      rootId: under?.rootId ?? id,
      previousId: under?.id ?? null,
    }
    return {
      id,
      person,
      hash: freshHash(),
      sent,
      blocks,
      state,
      errors: {},
      ...stood,
    }
  }
  return {
    stack,
    home: (person) => homes.get(person),
    find: ({ id, externalId }) =>
      everything().find((v) =>
        id ? v.id === id : externalId !== undefined && v.sent.external_id === externalId,
      ),
    open(person, sent) {
      const view = put(person, sent)
      stacks.set(person, [view])
      return view
    },
    push(person, sent) {
      const below = stack(person)
      if (below.length >= maxStack) return { refused: 'push_limit_reached' }
      const view = put(person, sent, below.at(-1))
      stacks.set(person, [...below, view])
      return view
    },
    update(view, sent) {
      view.blocks = withBlockIds(sent.blocks)
      view.state = stateOf(view.blocks, view.state)
      Object.assign(view, { sent, errors: {}, hash: freshHash() })
      return view
    },
    publish(person, sent) {
      const before = homes.get(person)
      if (before) return this.update(before, sent)
      const view = put(person, sent)
      homes.set(person, view)
      return view
    },
    close(person, all = false) {
      const below = stack(person)
      const closed = all ? below : below.slice(-1)
      stacks.set(person, all ? [] : below.slice(0, -1))
      return closed
    },
  }
}

/** Values to begin with. What was typed survives an update only under the same block id and action id. */
export function stateOf(blocks: readonly Block[], typed: State = {}): State {
  const state: State = {}
  for (const block of blocks)
    for (const element of elementsOf(block)) {
      const value = initialValue(element)
      if (value === undefined) continue
      const kept = typed[block.block_id ?? '']?.[actionId(element)]
      const now = kept?.type === value.type ? kept : value
      hold(state, block, element, now)
    }
  return state
}

/** Writes one value where the platform keeps it. */
export function hold(state: State, block: Block, element: Element, value: StateValue): void {
  const blockId = block.block_id ?? ''
  state[blockId] = { ...state[blockId], [actionId(element)]: value }
}

export function actionId(element: Element): string {
  return ('action_id' in element ? element.action_id : undefined) ?? ''
}

const freshHash = () => `${Date.now()}.${randomBytes(4).toString('hex')}`
