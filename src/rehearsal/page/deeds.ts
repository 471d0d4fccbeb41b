import { asTyped } from '../as-typed.ts'
import type { Block, Element } from '../block-limits.ts'
import { elementsOf } from '../block-surfaces.ts'
import type { Outcome } from '../outcomes.ts'
import type { Place } from '../pressing.ts'
import { pushTarget } from '../pushes.ts'
import { saysWhatIsWrong } from '../saying.ts'
import type { Stage } from '../stage.ts'
import { actionId } from '../views.ts'
import { fillAll } from './filling.ts'
import type { Visit } from './visits.ts'

/** What was posted, and on whose behalf. Wrong input is said on the page. */
export type Posted = {
  readonly stage: Stage
  readonly who: string
  readonly visit: Visit
  readonly form: URLSearchParams
}
type Deed = (posted: Posted) => Promise<void>

/** Everything that the page can do, by the last part of the address it is posted to. */
export const deeds: Readonly<Record<string, Deed>> = {
  async write({ stage, who, visit, form }) {
    const text = (form.get('text') ?? '').trim()
    const [command = '', ...rest] = text.split(/\s+/)
    if (text === '') throw new Error('Type a command, such as /today, or a message.')
    const typed = text.startsWith('/')
    tell(visit, typed ? await stage.as(who).command(command, rest.join(' ')) : await stage.as(who).say(text))
  },
  async press(posted) {
    const { stage, who, form } = posted
    const place: Place = form.has('ts')
      ? { channel: form.get('channel') ?? '', ts: form.get('ts') ?? '' }
      : { home: true }
    const person = stage.as(who)
    const blocks =
      'ts' in place
        ? person.messages(place.channel).find((message) => message.ts === place.ts)?.blocks
        : person.home()?.blocks
    await pressPart(posted, { place, blocks: blocks ?? [] }, [
      form.get('block') ?? '',
      form.get('part') ?? '0',
    ])
  },
  async form(posted) {
    const { stage, who, visit, form } = posted
    const person = stage.as(who)
    const screen = person.modal()
    if (screen?.id !== form.get('view')) throw new Error('That form is not open any more.')
    const [does, ...part] = (form.get('does') ?? '').split(' ')
    if (does === 'close') return tell(visit, await person.close())
    fillAll(posted, screen)
    if (does === 'press') return pressPart(posted, { place: { modal: true }, blocks: screen.blocks }, part)
    const sent = await person.submit()
    tell(visit, sent, sent.closed ? `Sent: ${screen.title}.` : undefined)
    if (sent.errors) visit.said = 'Not sent. See what is said at the questions.'
  },
  async answer({ visit, form }) {
    const { asking } = visit
    visit.asking = undefined
    if (!asking) throw new Error('Nothing is being asked any more.')
    await asking.answer(form.get('answer') !== 'yes')
  },
  async home({ stage, who, visit }) {
    const home = await stage.as(who).openHome()
    if (!home) visit.said = 'The bot has published no Home for this person.'
  },
  async clock({ stage, form }) {
    await stage.advanceTo(await pushTarget(form.get('to') ?? '', stage))
  },
  async outage({ stage, visit, form }) {
    const on = form.get('on') === 'yes'
    stage.workspace.faults.outage(on)
    visit.said = on ? 'The chat platform fails from now on.' : 'The chat platform answers again.'
  },
}

/** Does it. What is wrong with it, or what the workspace complains of, is said on the page. */
export async function did(name: string, posted: Posted): Promise<void> {
  const { visit } = posted
  visit.said = ''
  try {
    await deeds[name]?.(posted)
  } catch (error) {
    if (!saysWhatIsWrong(error)) throw error
    visit.said = error.message
  }
}

type Surface = { readonly place: Place; readonly blocks: readonly Block[] }

async function pressPart(posted: Posted, { place, blocks }: Surface, [id, number]: readonly string[]) {
  const { stage, who, visit, form } = posted
  const block = blocks.find((one) => one.block_id === id)
  const elements = block ? elementsOf(block) : []
  const element = elements[Number(number)]
  if (!block || !element) throw new Error('That is not there any more.')
  const name = elements.length === 1 ? (block.block_id ?? '') : actionId(element)
  const typed = form.getAll('modal' in place ? fieldOf(block, Number(number)) : 'choice')
  const value =
    element.type === 'button' ? element.value : asTyped(stage, who, element, typed.filter(Boolean))
  const act = async (deny: boolean) =>
    tell(visit, await stage.as(who).press(place, name, { ...(value !== undefined && { value }), deny }))
  const question = questionOf(element)
  if (question) visit.asking = { question, answer: act }
  else await act(false)
}

function fieldOf(block: Block, number: number): string {
  return block.type === 'input' ? `f-${block.block_id}` : `f-${block.block_id}-${number}`
}

function questionOf(element: Element) {
  const confirm = 'confirm' in element ? element.confirm : undefined
  if (!confirm) return undefined
  const { title, text, confirm: yes, deny } = confirm
  return { title: title.text, text: text.text, confirm: yes.text, deny: deny.text }
}

function tell(visit: Visit, { complaint }: Outcome, words = ''): void {
  visit.said = complaint ?? words
}
