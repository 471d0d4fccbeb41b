import { z } from 'zod'
import type { Block } from './block-limits.ts'
import { checkBlocks } from './block-surfaces.ts'
import { plainText } from './block-texts.ts'
import { type Problem, problem, problemsOf } from './problems.ts'

const maxViewBytes = 250_000

const shared = {
  blocks: z.array(z.unknown()),
  private_metadata: z.string().max(3000).optional(),
  callback_id: z.string().max(255).optional(),
  external_id: z.string().max(255).optional(),
  clear_on_close: z.boolean().optional(),
  notify_on_close: z.boolean().optional(),
}
const Modal = z.strictObject({
  type: z.literal('modal'),
  ...shared,
  title: plainText(24),
  submit: plainText(24).optional(),
  close: plainText(24).optional(),
  submit_disabled: z.boolean().optional(),
})
const Home = z.strictObject({ type: z.literal('home'), ...shared })

/** A view as an app sends it, already checked. */
export type SentView = (Omit<z.infer<typeof Modal>, 'blocks'> | Omit<z.infer<typeof Home>, 'blocks'>) & {
  blocks: Block[]
}

/** Every reason for which this view would be refused on this surface. */
export function checkView(view: unknown, surface: 'modal' | 'home'): Problem[] {
  if ((view as { type?: unknown } | null)?.type !== surface)
    return [problem(['type'], 'wrong_surface', `a view of type ${surface} belongs here`)]
  const parsed = (surface === 'modal' ? Modal : Home).safeParse(view, { reportInput: true })
  const blocks = (view as { blocks?: unknown }).blocks
  const bytes = Buffer.byteLength(JSON.stringify(view))
  return [
    ...problemsOf(parsed),
    ...(Array.isArray(blocks) ? checkBlocks(blocks, surface) : []),
    ...(surface === 'modal' ? missingSubmit(view as { submit?: unknown }, blocks) : []),
    ...focusedTwice(blocks),
    ...(bytes > maxViewBytes
      ? [problem([], 'view_too_large', `${bytes} bytes, at most ${maxViewBytes}`)]
      : []),
  ]
}

function missingSubmit(view: { submit?: unknown }, blocks: unknown): Problem[] {
  const asks = Array.isArray(blocks) && blocks.some((b) => (b as { type?: unknown } | null)?.type === 'input')
  return asks && view.submit === undefined
    ? [problem(['submit'], 'missing', 'a modal with an input block needs submit')]
    : []
}

function focusedTwice(blocks: unknown): Problem[] {
  const focused = JSON.stringify(blocks ?? []).split('"focus_on_load":true').length - 1
  return focused > 1 ? [problem(['blocks'], 'focus_on_load', 'only one element takes the focus')] : []
}
