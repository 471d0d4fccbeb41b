import { asTyped } from '../as-typed.ts'
import type { InputBlock } from '../block-limits.ts'
import { saysWhatIsWrong } from '../saying.ts'
import type { Screen } from '../screens.ts'
import type { Stage } from '../stage.ts'

/** Fills in every question as it was posted, so that nothing typed is lost. @throws with words at the end */
export function fillAll(
  { stage, who, form }: { readonly stage: Stage; readonly who: string; readonly form: URLSearchParams },
  screen: Screen,
): void {
  const wrong: string[] = []
  for (const block of screen.blocks) {
    if (block.type !== 'input' || block.element.type === 'file_input') continue
    try {
      fillOne(block)
    } catch (error) {
      if (!saysWhatIsWrong(error)) throw error
      wrong.push(`${block.label.text}: ${error.message}`)
    }
  }
  if (wrong.length > 0) throw new Error(wrong.join(' '))

  function fillOne({ block_id: id = '', element }: InputBlock): void {
    const typed = form.getAll(`f-${id}`).map((text) => text.replaceAll('\r\n', '\n'))
    stage.as(who).fill(id, asTyped(stage, who, element, typed.filter(Boolean)))
  }
}
