import { checkForm } from './form-check.ts'
import { type Answer, answered } from './form-values.ts'
import { findOnScreen } from './on-screen.ts'
import { type Outcome, outcomeOf, type Submitted } from './outcomes.ts'
import { closedPayload, submissionPayload } from './payloads.ts'
import { type Line, untouched } from './person-line.ts'
import { type Screen, screenOf } from './screens.ts'
import { settle } from './submitting.ts'
import { hold } from './views.ts'
import type { World } from './world.ts'

export type PersonForms = {
  /** The modal in front. */
  modal(): Screen | undefined
  /** Fills one field, found by block id or by the label a person reads. */
  fill(field: string, answer: Answer): void
  /** Sends the form, unless the form itself finds something missing or out of range. */
  submit(): Promise<Submitted>
  /** Leaves the modal in front, or with `all` the whole stack. */
  close(all?: boolean): Promise<Outcome>
}

export function personForms(world: World, line: Line, id: string): PersonForms {
  const top = () => world.views.stack(id).at(-1)
  const front = () => {
    const view = top()
    if (!view) throw new Error('no modal is open')
    return view
  }
  return {
    modal() {
      const view = top()
      return view && screenOf(world, view)
    },
    fill(field, answer) {
      const view = front()
      const { block, element } = findOnScreen(view.blocks, field)
      hold(view.state, block, element, answered(element, answer))
    },
    async submit() {
      const view = front()
      if (!('submit' in view.sent) || !view.sent.submit) throw new Error('this modal has nothing to submit')
      view.errors = checkForm(view.blocks, view.state)
      if (Object.keys(view.errors).length > 0) {
        const seen = outcomeOf(world, id, 'The form', untouched)
        return { ...seen, sent: false, closed: false, errors: view.errors }
      }
      const payload = submissionPayload(world, line.member(), view)
      return settle(world, view, await line.deliver({ kind: 'interaction', payload }))
    },
    async close(all = false) {
      front()
      const told = world.views
        .close(id, all)
        .toReversed()
        .filter((view) => view.sent.notify_on_close)
      let came = untouched
      for (const view of told) {
        const payload = closedPayload(world, line.member(), view, all)
        came = await line.deliver({ kind: 'interaction', payload })
      }
      return outcomeOf(world, id, 'The app', came)
    },
  }
}
