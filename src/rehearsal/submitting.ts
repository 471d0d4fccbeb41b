import { viewRefusal } from './api-views.ts'
import type { Acknowledgement } from './deliveries.ts'
import { outcomeOf, type Submitted } from './outcomes.ts'
import type { SentView } from './view-limits.ts'
import type { OpenView } from './views.ts'
import type { World } from './world.ts'

const trouble = 'We had some trouble connecting. What you entered is still here.'

/** What becomes of a form when the app has answered its submission, or has not. */
export function settle(world: World, view: OpenView, came: Acknowledgement): Submitted {
  const person = view.person
  const done = (how: Partial<Submitted> = {}): Submitted => ({
    ...outcomeOf(world, person, 'The app', came),
    sent: true,
    closed: !world.views.stack(person).includes(view),
    ...how,
  })
  if (!came.acknowledged) return done()
  const answer = came.answer
  if (answer === undefined || isEmpty(answer)) {
    leave(world, view)
    return done()
  }
  if (typeof answer !== 'object' || answer === null) return done({ complaint: trouble })
  const { response_action: action, errors, view: next } = answer as Record<string, unknown>
  switch (action) {
    case 'clear':
      world.views.close(person, true)
      return done()
    case 'errors': {
      const held = errorsFor(view, errors)
      if (!held) return done({ complaint: trouble })
      view.errors = held
      return done({ errors: held })
    }
    case 'update':
    case 'push':
      return shows(world, view, action, next) ? done() : done({ complaint: trouble })
    default:
      return done({ complaint: trouble })
  }
}

function leave(world: World, view: OpenView): void {
  if (world.views.stack(view.person).at(-1) === view) world.views.close(view.person)
}

/** Errors have to stand at an input of this form, in words. */
function errorsFor(view: OpenView, errors: unknown): Record<string, string> | undefined {
  if (typeof errors !== 'object' || errors === null) return undefined
  const inputs = view.blocks.filter((block) => block.type === 'input').map((block) => block.block_id)
  const entries = Object.entries(errors)
  const fits = entries.every(
    ([id, words]) => inputs.includes(id) && typeof words === 'string' && words !== '',
  )
  return fits && entries.length > 0 ? (errors as Record<string, string>) : undefined
}

function shows(world: World, view: OpenView, action: 'update' | 'push', next: unknown): boolean {
  if (viewRefusal(world, next, 'modal', action === 'update' ? view : undefined)) return false
  if (action === 'push') return !('refused' in world.views.push(view.person, next as SentView))
  world.views.update(view, next as SentView)
  return true
}

const isEmpty = (answer: unknown) =>
  answer === '' || (typeof answer === 'object' && answer !== null && Object.keys(answer).length === 0)
