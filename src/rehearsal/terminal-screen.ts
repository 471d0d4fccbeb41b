import { dayAt, wallTimeAt, weekdayOf } from '../chart/day.ts'
import type { InputBlock } from './block-limits.ts'
import { coachesChannel, player } from './cast.ts'
import { optionsOf } from './form-values.ts'
import type { Message } from './ledger.ts'
import { readable } from './readable.ts'
import type { Screen } from './screens.ts'
import type { Stage } from './stage.ts'

/** The newest messages, oldest first, each under the time at which it came or was changed. */
export function messageLines(stage: Stage, who: string, messages: readonly Message[], most = 3): string[] {
  const zone = player(who).timeZone
  const time = (ts: string) => {
    const at = new Date(Number(ts) * 1000).toISOString()
    return `${weekdayOf(dayAt(at, zone))} ${wallTimeAt(at, zone)}`
  }
  const names = new Map(stage.workspace.people.all().map((member) => [member.id, member.name]))
  const from = (id: string) => (names.has(id) ? ` ${names.get(id)} wrote` : '')
  return messages
    .slice(-most)
    .flatMap((message) => [
      `  ${time(message.ts)}${from(message.from)}${message.edited ? `, changed ${time(message.edited.ts)}` : ''}`,
      ...readable(message, (id) => names.get(id)).map((line) => `    | ${line}`),
    ])
}

/** A form as far as it is filled in, with what is held against an answer under it. */
export function formLines(screen: Screen): string[] {
  const fields = screen.blocks.flatMap((block) =>
    block.type === 'input' ? fieldLines(block, screen) : readable({ blocks: [block] }),
  )
  return [
    `  The form "${screen.title}":`,
    ...fields.map((line) => `    | ${line}`),
    `    | ${screen.submit ? `[${screen.submit}: say submit] ` : ''}[close]`,
  ]
}

export function fieldLines(block: InputBlock, { values, errors }: Screen): string[] {
  const id = block.block_id ?? ''
  const options = optionsOf(block.element)
  const chosen = [values[id] ?? []].flat().map((value) => {
    const option = options.find((one) => one.value === value)
    return option?.text.text ?? String(value)
  })
  const offered = options.map((option) => option.text.text).join(' | ')
  return [
    `${block.label.text}${block.optional ? ' (optional)' : ''}: ${chosen.join(', ') || '____'}`,
    ...(offered && chosen.length === 0 ? [`    ( ${offered} )`] : []),
    ...(errors[id] ? [`    !! ${errors[id]}`] : []),
  ]
}

export function homeLines(screen: Screen | undefined): string[] {
  if (!screen) return ['  The bot has published no Home for this person.']
  return ['  Home:', ...screen.lines.map((line) => `    | ${line}`)]
}

/** The channels that this person is in, the coaches' list first. */
export function channelsOf(stage: Stage, who: string): { readonly id: string; readonly name: string }[] {
  const { account } = player(who)
  return stage.workspace.channels
    .all()
    .filter((room) => room.kind !== 'direct' && room.kind !== 'group' && room.members.includes(account))
    .sort((a, b) => Number(b.id === coachesChannel.id) - Number(a.id === coachesChannel.id))
}
