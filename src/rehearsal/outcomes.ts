import type { Acknowledgement } from './deliveries.ts'
import type { Message } from './ledger.ts'
import { type Screen, screenOf } from './screens.ts'
import type { World } from './world.ts'

/** What somebody sees happen after doing something, by the time the app acknowledged it. */
export type Outcome = {
  readonly acknowledged: boolean
  readonly status: number
  /** What the acknowledgement itself said, shown only to this person unless it went to the channel. */
  readonly reply?: Message
  /** The modal in front by now; one that is opened after the acknowledgement is there after `quiet()`. */
  readonly modal?: Screen
  /** What the workspace itself tells the person when the app failed. */
  readonly complaint?: string
  /** The question that stood in between. */
  readonly asked?: {
    readonly title: string
    readonly text: string
    readonly confirm: string
    readonly deny: string
  }
}

export type Submitted = Outcome & {
  readonly closed: boolean
  /** By block id. `sent` is false when the form itself found them and the app was not asked. */
  readonly errors?: Readonly<Record<string, string>>
  readonly sent: boolean
}

export function outcomeOf(world: World, person: string, what: string, came: Acknowledgement): Outcome {
  const view = world.views.stack(person).at(-1)
  return {
    acknowledged: came.acknowledged,
    status: came.status,
    ...(view && { modal: screenOf(world, view) }),
    ...(!came.acknowledged && { complaint: complaintOf(what, came) }),
  }
}

function complaintOf(what: string, came: Acknowledgement): string {
  switch (came.reason) {
    case 'http_timeout':
      return `${what} did not respond within three seconds.`
    case 'connection_failed':
      return `${what} did not respond: nobody is listening.`
    default:
      return `${what} did not respond: it answered ${came.status}.`
  }
}
