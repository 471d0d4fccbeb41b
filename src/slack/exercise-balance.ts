import type { KnownBlock } from '@slack/types'
import { numberInput, option } from './blocks.ts'
import type { Form } from './form.ts'
import { selectFrom } from './pickers.ts'

const legs = [
  { name: 'balance-left-open', side: 'left', eyes: 'open' },
  { name: 'balance-right-open', side: 'right', eyes: 'open' },
  { name: 'balance-left-closed', side: 'left', eyes: 'closed' },
  { name: 'balance-right-closed', side: 'right', eyes: 'closed' },
] as const

/** Seconds on one leg. Surface and cap stand with each value, because its norms depend on them. */
export function balanceFields(): KnownBlock[] {
  return [
    ...legs.map(({ name, side, eyes }) =>
      numberInput({
        name,
        label: `Balance on the ${side} leg, eyes ${eyes}: seconds`,
        low: 0,
        high: 600,
        decimal: true,
        optional: true,
      }),
    ),
    selectFrom(
      { name: 'surface', label: 'Balance: stood on', optional: true },
      [option('floor', 'the floor'), option('unstable', 'an unstable surface')],
      'floor',
    ),
    numberInput({
      name: 'capSeconds',
      label: 'Balance: stopped at the latest after (seconds)',
      low: 1,
      high: 600,
      optional: true,
    }),
  ]
}

export function balanceFrom(form: Form): readonly object[] {
  const capSeconds = form.number('capSeconds')
  return legs.flatMap(({ name, side, eyes }) => {
    const seconds = form.number(name)
    if (seconds === undefined) return []
    const surface = form.choice('surface') ?? 'floor'
    return [{ side, eyes, surface, seconds, ...(capSeconds === undefined ? {} : { capSeconds }) }]
  })
}
