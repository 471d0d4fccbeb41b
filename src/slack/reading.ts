import type { WebClient } from '@slack/web-api'
import { type ZodType, z } from 'zod'
import type { Chart } from '../chart/chart.ts'
import type { Refusal } from '../rules/decision.ts'
import { type Door, may, notYours } from '../rules/permissions.ts'
import type { Modal } from './blocks.ts'
import { chartScreen } from './chart.ts'
import { confirmModal } from './confirm.ts'
import { type At, callerNow, type Doorway, handInEither, personAt } from './door.ts'
import { aboutFrom, errorsFor, type Form, readForm } from './form.ts'
import { type Sent, sentOnce } from './sent-once.ts'

/** What a form that was sent in asks of the desk. */
export type Read = {
  /** Submissions, in order. What is accepted stays accepted when a later one is refused. */
  readonly hands: readonly unknown[]
  /** What this would allow that was not allowed before: asked about first. */
  readonly raises?: readonly string[]
  /** The form that follows in the place of this one. */
  readonly next?: (chart: Chart | undefined) => Promise<Modal | undefined>
  /** What lies under the form, as it is now; a chart unless something else is said. */
  readonly under?: () => Promise<Modal>
  /** What is done behind the closed form once everything is written. */
  readonly afterwards?: (chart: Chart | undefined, client: WebClient) => Promise<void>
  /** True: everything that is open closes. */
  readonly closesAll?: boolean
}

export type Reading = (at: At, form: Form, about: string) => Promise<Read | Refusal>

/** A form that says what it is about in its own words; when those are not understood it is refused. */
export function reads<T extends object>(
  about: ZodType<T>,
  read: (at: At, form: Form, of: T) => Promise<Read | Refusal>,
): Reading {
  return async (at, form, text) => {
    const of = aboutFrom(about, text)
    return 'refused' in of ? (of as Refusal) : read(at, form, of as T)
  }
}

/** Most forms are about one athlete. */
export const OfAthlete = z.object({ athlete: z.string() })

/** The form closes only when everything is on disk; a refusal leaves it open with what was typed. */
export function onView(doorway: Doorway, reading: Reading, inDoubt: 'admit' | 'refuse') {
  return sentOnce(async ({ ack, view, body, client }) => {
    const refuse = (refusal: Refusal) => ack(errorsFor(refusal, view))
    const person = await personAt(doorway, body.user.id, inDoubt)
    if ('refused' in person) return refuse(person)
    const read = await reading({ doorway, person }, readForm(view.state.values), view.private_metadata)
    if ('refused' in read) return refuse(read)
    if (read.raises && read.raises.length > 0) {
      const refusal = await notTheirs({ doorway, person }, read.hands)
      if (refusal) return refuse(refusal)
      const question = confirmModal(read.hands, read.raises)
      if (!question)
        return refuse({ refused: 'too-long', words: 'Please shorten the words.', field: 'words' })
      return ack({ response_action: 'push', view: question })
    }
    let chart: Chart | undefined
    for (const submission of read.hands) {
      const outcome = await handInEither(doorway, person, submission)
      if ('refused' in outcome) return refuse(outcome)
      if ('chart' in outcome) chart = outcome.chart
    }
    const next = await read.next?.(chart)
    if (next) return ack({ response_action: 'update', view: next })
    if (read.closesAll) return ack({ response_action: 'clear' })
    await ack()
    await showUnder({ doorway, person }, read, chart, { view, client })
    await read.afterwards?.(chart, client)
  })
}

/** What a step would raise says much of a chart: whoever may not take the step is not asked about it either. */
async function notTheirs({ doorway, person }: At, hands: readonly unknown[]): Promise<Refusal | undefined> {
  const caller = await callerNow(doorway, person)
  for (const hand of hands) {
    const { kind, athlete } = hand as { readonly kind: Door; readonly athlete: string }
    if (!may(caller, kind, await doorway.desk.charts.read(athlete))) return notYours(kind)
  }
  return undefined
}

async function showUnder(
  at: At,
  { under: shown }: Read,
  chart: Chart | undefined,
  { view, client }: Pick<Sent, 'view' | 'client'>,
): Promise<void> {
  const under = view.root_view_id
  if (!under || under === view.id) return
  const shows = shown ? await shown() : chart && (await chartFor(at, chart))
  if (shows) await client.views.update({ view_id: under, view: shows })
}

/** Only whoever may read the chart is shown it: others may write a page of it without seeing it. */
async function chartFor(at: At, chart: Chart): Promise<Modal | undefined> {
  return may(await callerNow(at.doorway, at.person), 'see-chart', chart) ? chartScreen(at, chart) : undefined
}
