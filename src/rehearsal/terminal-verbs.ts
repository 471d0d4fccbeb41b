import { asTyped } from './as-typed.ts'
import type { Element } from './block-limits.ts'
import { player } from './cast.ts'
import type { Outcome, Submitted } from './outcomes.ts'
import type { Screen } from './screens.ts'
import type { Stage } from './stage.ts'
import { fieldMeant, spotMeant } from './terminal-find.ts'
import { channelsOf, fieldLines, formLines, homeLines, messageLines } from './terminal-screen.ts'

/** Does something as somebody and answers with the lines that belong to it. @throws with words for a wrong input */
type Verb = (stage: Stage, who: string, words: readonly string[]) => Promise<string[]>

/** What a person of the cast can do from the terminal, besides typing a command that begins with a slash. */
export const verbs: Readonly<Record<string, Verb>> = {
  see: async (stage, who, [channel]) => {
    const person = stage.as(who)
    const rooms = channelsOf(stage, who)
    const room = rooms.find((one) => one.name === channel)
    if (channel && !room)
      throw new Error(`Say "${who} see"${rooms.map((one) => `, "${who} see ${one.name}"`).join('')}.`)
    const lines = messageLines(stage, who, person.messages(room?.id))
    const form = person.modal()
    return [...(lines.length > 0 ? lines : ['  No messages yet.']), ...(form ? formLines(form) : [])]
  },
  home: async (stage, who) => homeLines(await stage.as(who).openHome()),
  press: async (stage, who, [name = '', ...more]) => {
    const answer = more.find((word) => word === 'yes' || word === 'no')
    const { place, element } = spotMeant(
      stage,
      who,
      name,
      more.find((word) => word !== answer),
    )
    if (element.type !== 'button') throw new Error(`"${name}" is a menu: ${who} choose "${name}" OPTION`)
    const question = questionIn(element)
    if (question && !answer) return [`  It asks: ${question}`, `  Say: ${who} press "${name}" yes (or no)`]
    const how = { ...(element.value !== undefined && { value: element.value }), deny: answer === 'no' }
    return outcomeLines(who, await stage.as(who).press(place, element.action_id ?? name, how))
  },
  choose: async (stage, who, [name = '', ...options]) => {
    const { place, element } = spotMeant(stage, who, name)
    if (element.type === 'button') throw new Error(`"${name}" is a button: ${who} press "${name}"`)
    const value = asTyped(stage, who, element, options)
    const action = ('action_id' in element && element.action_id) || name
    return outcomeLines(who, await stage.as(who).choose(place, action, value))
  },
  fill: async (stage, who, [name = '', ...typed]) => {
    const form = formOf(stage, who)
    const block = fieldMeant(form, name)
    return answered(stage, who, form, name, several(block.element) ? typed : [typed.join(' ')])
  },
  tick: async (stage, who, [name = '', ...ticks]) => {
    const form = formOf(stage, who)
    const { block_id: id = '' } = fieldMeant(form, name)
    return answered(stage, who, form, name, [...listOf(form.values[id]), ...ticks])
  },
  untick: async (stage, who, [name = '', ...ticks]) => {
    const form = formOf(stage, who)
    const { block_id: id = '', element } = fieldMeant(form, name)
    const gone = [asTyped(stage, who, element, ticks) ?? []].flat()
    return answered(
      stage,
      who,
      form,
      name,
      listOf(form.values[id]).filter((one) => !gone.includes(one)),
    )
  },
  submit: async (stage, who) => {
    const sent = await stage.as(who).submit()
    return [
      ...(sent.closed ? ['  Sent, and the form is closed.'] : refused(sent)),
      ...outcomeLines(who, sent),
    ]
  },
  close: async (stage, who) => outcomeLines(who, await stage.as(who).close()),
  say: async (stage, who, words) => {
    if (words.length === 0) throw new Error(`Say what: ${who} say ...`)
    return outcomeLines(who, await stage.as(who).say(words.join(' ')))
  },
}

/** A command, for example `/checkin`, in the direct messages. */
export async function types(stage: Stage, who: string, [command = '', ...text]: readonly string[]) {
  return outcomeLines(who, await stage.as(who).command(command, text.join(' ')))
}

/** What stands in front of this person when all that follows has happened; nothing when there is no form. */
export function standing(stage: Stage, who: string): string[] {
  const form = stage.as(who).modal()
  return form ? formLines(form) : []
}

function outcomeLines(who: string, { complaint }: Outcome): string[] {
  return complaint ? [`  ${player(who).name} reads: ${complaint}`] : []
}

function refused(sent: Submitted): string[] {
  return sent.errors ? ['  Not sent: see the lines with !!'] : []
}

async function answered(stage: Stage, who: string, form: Screen, name: string, typed: readonly string[]) {
  const block = fieldMeant(form, name)
  stage.as(who).fill(block.block_id ?? '', asTyped(stage, who, block.element, typed))
  return fieldLines(block, { ...formOf(stage, who), errors: {} }).map((line) => `    | ${line}`)
}

function formOf(stage: Stage, who: string): Screen {
  const form = stage.as(who).modal()
  if (!form) throw new Error(`No form is open for ${player(who).name}; a command or a button opens one.`)
  return form
}

function several({ type }: Element): boolean {
  return type === 'checkboxes' || type.startsWith('multi_')
}

const listOf = (value: unknown): string[] => [value ?? []].flat().map(String)

function questionIn(element: Element): string | undefined {
  const confirm = 'confirm' in element ? element.confirm : undefined
  return (
    confirm && `${confirm.title.text} ${confirm.text.text} [${confirm.confirm.text}] [${confirm.deny.text}]`
  )
}
