import { Block, type Element } from './block-limits.ts'
import { type Problem, problem, problemsOf } from './problems.ts'

export type Surface = 'message' | 'modal' | 'home'

const everywhere = ['section', 'header', 'divider', 'context', 'actions', 'image', 'input', 'rich_text']
const allowed: Record<Surface, ReadonlySet<string>> = {
  message: new Set([...everywhere, 'markdown', 'table', 'data_table', 'data_visualization']),
  modal: new Set([...everywhere, 'alert']),
  home: new Set(everywhere),
}
const maxBlocks: Record<Surface, number> = {
  message: 50,
  modal: 100,
  home: 100,
}

/** Blocks that a message may hold only so often. */
const maxOfType: Record<string, number> = { table: 1, data_visualization: 2 }
const maxMarkdown = 12_000
const maxTable = 10_000

/** Every reason for which these blocks would be refused on this surface. */
export function checkBlocks(
  blocks: unknown,
  surface: Surface,
  under: readonly PropertyKey[] = ['blocks'],
): Problem[] {
  if (!Array.isArray(blocks)) return [problem(under, 'invalid_type', 'blocks is an array')]
  const number = blocks.length
  const crowded = number > maxBlocks[surface]
  return [
    ...(crowded ? [problem(under, 'too_many', `${number} blocks, at most ${maxBlocks[surface]}`)] : []),
    ...blocks.flatMap((block, i) => oneBlock(block, surface, [...under, i])),
    ...repeated(blocks, under),
    ...overMany(blocks, under),
  ]
}

/** The interactive parts of a block, in reading order. */
export function elementsOf(block: Block): Element[] {
  if (block.type === 'actions') return block.elements
  if (block.type === 'input') return [block.element]
  if (block.type === 'section' && block.accessory !== undefined && block.accessory.type !== 'image')
    return [block.accessory]
  return []
}

function oneBlock(block: unknown, surface: Surface, path: PropertyKey[]): Problem[] {
  const type = String((block as { type?: unknown } | null)?.type)
  const parsed = Block.safeParse(block, { reportInput: true })
  if (!parsed.success) return problemsOf(parsed, path)
  const found: Problem[] = []
  if (!allowed[surface].has(type))
    found.push(problem(path, 'wrong_surface', `${type} cannot stand in a ${surface}`))
  if (surface !== 'modal' && parsed.data.type === 'input' && parsed.data.element.type === 'file_input')
    found.push(problem([...path, 'element'], 'wrong_surface', `file_input cannot stand in a ${surface}`))
  const ids = elementsOf(parsed.data).flatMap((e) => ('action_id' in e && e.action_id ? [e.action_id] : []))
  for (const id of new Set(ids.filter((id, i) => ids.indexOf(id) !== i)))
    found.push(problem(path, 'duplicate_action_id', `action_id ${id} stands twice in one block`))
  for (const e of elementsOf(parsed.data)) found.push(...unofferedInitial(e, path))
  return found
}

/** What is chosen from the start has to be one of the options, with the same words. */
function unofferedInitial(element: Element, path: PropertyKey[]): Problem[] {
  if (!('options' in element || 'option_groups' in element)) return []
  const groups = 'option_groups' in element ? element.option_groups : undefined
  const offered = [...(element.options ?? []), ...(groups ?? []).flatMap((group) => group.options)]
  const initial = [
    ...('initial_option' in element && element.initial_option ? [element.initial_option] : []),
    ...('initial_options' in element && element.initial_options ? element.initial_options : []),
  ]
  return initial
    .filter((choice) => !offered.some((o) => o.value === choice.value && o.text.text === choice.text.text))
    .map((choice) => problem(path, 'invalid_initial_option', `${choice.value} is not among the options`))
}

function repeated(blocks: readonly unknown[], under: readonly PropertyKey[]): Problem[] {
  const seen = new Set<unknown>()
  return blocks.flatMap((block, i) => {
    const id = (block as { block_id?: unknown } | null)?.block_id
    if (id === undefined || !seen.has(id)) {
      seen.add(id)
      return []
    }
    return [problem([...under, i, 'block_id'], 'duplicate_block_id', `block_id ${id} stands twice`)]
  })
}

function overMany(blocks: readonly unknown[], under: readonly PropertyKey[]): Problem[] {
  const ofType = (type: string) => blocks.filter((b) => (b as { type?: unknown } | null)?.type === type)
  const crowded = Object.entries(maxOfType)
    .filter(([type, max]) => ofType(type).length > max)
    .map(([type, max]) => problem(under, 'too_many', `at most ${max} ${type} in a message`))
  const long = (type: string, max: number) =>
    textLength(ofType(type)) > max
      ? [problem(under, 'too_long', `${type}: at most ${max} characters in all`)]
      : []
  return [...crowded, ...long('markdown', maxMarkdown), ...long('table', maxTable)]
}

/** Characters that a person reads, summed over everything inside. */
export function textLength(part: unknown): number {
  if (Array.isArray(part)) return part.reduce((sum: number, inner) => sum + textLength(inner), 0)
  if (typeof part !== 'object' || part === null) return 0
  return Object.entries(part).reduce(
    (sum, [key, inner]) =>
      sum + (key === 'text' && typeof inner === 'string' ? inner.length : textLength(inner)),
    0,
  )
}
