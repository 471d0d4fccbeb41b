import { escaped, type Modal, modal, option, section } from './blocks.ts'
import { boxesFrom } from './pickers.ts'

const mostMetadata = 3000

/**
 * The question before a step that raises risk: it repeats what will happen. What is to be handed in waits in the form
 * itself; undefined when it is too long to wait there.
 */
export function confirmModal(hands: readonly unknown[], raises: readonly string[]): Modal | undefined {
  const about = { hands }
  if (JSON.stringify(about).length > mostMetadata) return undefined
  return modal({ door: 'confirmed', title: 'Please confirm', submit: 'Yes, sign it', about }, [
    section('*This allows more than before.* When you confirm:'),
    section(raises.map((sentence) => `• ${escaped(sentence)}`).join('\n')),
    boxesFrom({ name: 'confirm', label: 'Your decision, under your name' }, [
      option('yes', 'I have read this and I decide it'),
    ]),
  ])
}
