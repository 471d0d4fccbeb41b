import type { Acknowledgement, Envelope } from './deliveries.ts'
import type { EventPost } from './event-post.ts'
import type { Member } from './roster.ts'

/** How one person's doings reach the app. */
export type Line = {
  member(): Member
  deliver(envelope: Envelope): Promise<Acknowledgement>
  readonly events: EventPost
}

/** What stands for an answer when the app was not told. */
export const untouched: Acknowledgement = { acknowledged: true, status: 0 }

/** What a person types arrives with the three signs escaped. */
export const escaped = (text: string) =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;')
