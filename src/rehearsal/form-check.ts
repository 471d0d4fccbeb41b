import type { Block, InputBlock } from './block-limits.ts'
import type { StateValue } from './form-values.ts'
import { actionId, type State } from './views.ts'

/**
 * What a client says before it sends a form: by block id, in its own words. Nothing is sent while there is
 * an entry.
 */
export function checkForm(blocks: readonly Block[], state: State): Record<string, string> {
  const inputs = blocks.filter((block): block is InputBlock => block.type === 'input')
  return Object.fromEntries(
    inputs.flatMap((input) => {
      const value = state[input.block_id ?? '']?.[actionId(input.element)]
      const words = value && complaint(input, value)
      return words ? [[input.block_id ?? '', words]] : []
    }),
  )
}

function complaint(input: InputBlock, value: StateValue): string | undefined {
  const { type, timezone, ...field } = value
  const answer = Object.values(field)[0]
  const empty = answer === null || answer === '' || (Array.isArray(answer) && answer.length === 0)
  if (empty) return input.optional ? undefined : 'Please complete this required field.'
  return typeof answer === 'string' ? typedComplaint(input.element, answer) : undefined
}

function typedComplaint(element: InputBlock['element'], answer: string): string | undefined {
  switch (element.type) {
    case 'plain_text_input': {
      const { min_length: min = 0, max_length: max = 3000 } = element
      if (answer.length < min) return `Please enter at least ${min} characters.`
      return answer.length > max ? `Please enter at most ${max} characters.` : undefined
    }
    case 'number_input':
      return numberComplaint(element, answer)
    case 'email_text_input':
      return /^[^\s@]+@[^\s@]+\.[^\s@]+$/.test(answer) ? undefined : 'Please enter a valid email address.'
    case 'url_text_input':
      return URL.canParse(answer) ? undefined : 'Please enter a valid URL.'
    default:
      return undefined
  }
}

type NumberInput = Extract<InputBlock['element'], { type: 'number_input' }>

function numberComplaint(element: NumberInput, answer: string): string | undefined {
  if (!/^[+-]?(\d+\.?\d*|\.\d+)$/.test(answer)) return 'Please enter a number.'
  if (!element.is_decimal_allowed && !/^[+-]?\d+$/.test(answer)) return 'Please enter a whole number.'
  const { min_value: min, max_value: max } = element
  if (min !== undefined && Number(answer) < Number(min)) return `Please enter a number of at least ${min}.`
  if (max !== undefined && Number(answer) > Number(max)) return `Please enter a number of at most ${max}.`
  return undefined
}
