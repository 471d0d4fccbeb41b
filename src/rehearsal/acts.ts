import { signs } from '../chart/signs.ts'
import { player } from './cast.ts'
import type { Stage } from './stage.ts'

/** A morning's answers; only the remarkable is stated. */
export type Morning = {
  readonly worstPain?: number
  readonly morningPain?: number
  readonly swelling?: 'no' | 'yes' | 'not sure'
  readonly signs?: { readonly [group in 'always' | 'surgery' | 'bone' | 'knee']?: readonly string[] }
  /** Degrees Celsius, where it is asked; not taken unless stated. */
  readonly temperature?: number
  readonly note?: string
}

/** Presses the button of this morning's prompt, fills the form and sends it. */
export async function checksIn(stage: Stage, athlete: string, morning: Morning = {}): Promise<void> {
  const person = stage.as(athlete)
  const prompt = person.messages().findLast((message) => hasButton(message.blocks, 'open-check-in'))
  if (!prompt) return stage.expect(false, `${player(athlete).name} has a prompt to answer`)
  stage.say(`  ${player(athlete).name} checks in: ${inWords(morning)}`)
  await person.press(prompt, 'open-check-in')
  await stage.workspace.quiet()
  person.fill('worstPain', String(morning.worstPain ?? 0))
  person.fill('morningPain', String(morning.morningPain ?? 0))
  person.fill('swelling', morning.swelling ?? 'no')
  const asked = new Set(person.modal()?.blocks.map((block) => block.block_id))
  for (const group of ['always', 'surgery', 'bone', 'knee'] as const)
    if (asked.has(`signs-${group}`)) person.fill(`signs-${group}`, ticks(morning.signs?.[group]))
  if (asked.has('temperature')) {
    person.fill('temperature', morning.temperature === undefined ? 'not taken' : 'taken')
    if (morning.temperature !== undefined) person.fill('temperatureC', String(morning.temperature))
  }
  if (morning.note) person.fill('note', morning.note)
  const sent = await person.submit()
  stage.expect(sent.closed, `the check-in of ${player(athlete).name} is saved and the form closes`)
  await stage.settle()
}

export type Run = {
  readonly painBefore?: number
  readonly painDuring?: number
  readonly painAfter?: number
  readonly rpe?: number
  readonly minutes?: number
  /** Where it is asked; none unless stated. */
  readonly soreness?: string
}

/** Logs the run that was prescribed, typing only what differed. */
export async function logsRun(stage: Stage, athlete: string, run: Run = {}): Promise<void> {
  const person = stage.as(athlete)
  stage.say(
    `  ${player(athlete).name} logs the run: pain during ${run.painDuring ?? 0}, effort ${run.rpe ?? 3}`,
  )
  await person.command('/session')
  await stage.workspace.quiet()
  if (run.minutes !== undefined) person.fill('minutes', String(run.minutes))
  const asked = new Set(person.modal()?.blocks.map((block) => block.block_id))
  if (asked.has('soreness')) person.fill('soreness', run.soreness ?? 'none')
  person.fill('painBefore', String(run.painBefore ?? 0))
  person.fill('painDuring', String(run.painDuring ?? 0))
  person.fill('painAfter', String(run.painAfter ?? 0))
  person.fill('rpe', String(run.rpe ?? 3))
  const sent = await person.submit()
  if (!sent.closed) stage.say(`    the form says: ${Object.values(sent.errors ?? {}).join(' ')}`)
  stage.expect(sent.closed, `the run of ${player(athlete).name} is saved and the form closes`)
  await stage.settle()
}

/** Presses a button on the newest message that has it. */
export async function presses(stage: Stage, who: string, action: string): Promise<string | undefined> {
  const person = stage.as(who)
  const message = person.messages().findLast((m) => hasButton(m.blocks, action))
  if (!message) {
    stage.expect(false, `${player(who).name} has "${action}" to press`)
    return undefined
  }
  const before = person.messages().length
  stage.say(`  ${player(who).name} presses [${labelOf(message.blocks, action)}]`)
  await person.press(message, action)
  await stage.settle()
  return person.messages().slice(before).at(-1)?.text
}

export async function closesCall(
  stage: Stage,
  who: string,
  closing: { readonly disposition: string; readonly words: string; readonly hold: 'keep' | 'lift' },
): Promise<void> {
  await presses(stage, who, 'open-close')
  const person = stage.as(who)
  stage.say(`  ${player(who).name} closes the call: ${closing.disposition}; the hold: ${closing.hold}`)
  person.fill('disposition', closing.disposition)
  person.fill('words', closing.words)
  person.fill('hold', closing.hold)
  const sent = await person.submit()
  stage.expect(sent.closed, `the closing of the call is saved and the form closes`)
  await stage.settle()
}

/** The newest message to this person that has these words; undefined when there is none. */
export function newest(stage: Stage, who: string, words: string): string | undefined {
  const found = stage
    .as(who)
    .messages()
    .findLast((message) => JSON.stringify(message.blocks ?? []).includes(words))
  return found && JSON.stringify(found.blocks)
}

function hasButton(blocks: readonly unknown[] | undefined, action: string): boolean {
  return JSON.stringify(blocks ?? []).includes(`"action_id":"${action}"`)
}

type Pressable = { readonly elements?: readonly { action_id?: string; text?: { text?: string } }[] }

/** What stands on the button, as the person reads it. */
function labelOf(blocks: readonly unknown[] | undefined, action: string): string {
  const buttons = (blocks ?? []).flatMap((block) => (block as Pressable).elements ?? [])
  return buttons.find((button) => button.action_id === action)?.text?.text ?? action
}

function ticks(signs: readonly string[] | undefined): readonly string[] {
  return signs && signs.length > 0 ? signs : ['none']
}

function inWords(morning: Morning): string {
  const words = Object.assign({}, ...Object.values(signs)) as Readonly<Record<string, string>>
  const ticks = Object.values(morning.signs ?? {}).flatMap((ones) => ones.map((one) => words[one] ?? one))
  const ticked = ticks.length > 0 ? `ticks "${ticks.join('", "')}"` : 'none of the signs'
  const swelling = morning.swelling && morning.swelling !== 'no' ? `, more swollen: ${morning.swelling}` : ''
  return `worst pain ${morning.worstPain ?? 0}, now ${morning.morningPain ?? 0}${swelling}, ${ticked}`
}
