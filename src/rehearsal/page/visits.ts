import type { Message } from '../ledger.ts'
import type { Stage } from '../stage.ts'
import type { Question } from './dialog.ts'
import { readerAt, roomsOf } from './reader.ts'

/** What the page remembers of whoever is acted as, between one request and the next. */
export type Visit = {
  /** The question that a press asked, and what an answer does. */
  asking?: { readonly question: Question; answer(deny: boolean): Promise<void> } | undefined
  /** What is said of the last deed. */
  said: string
  /** What this person saw when the page was last looked at as this person. */
  seen: ReadonlySet<string>
}

export type Visits = { of(who: string): Visit }

export function openVisits(): Visits {
  const visits = new Map<string, Visit>()
  return {
    of(who) {
      const visit = visits.get(who) ?? { said: '', seen: new Set<string>() }
      visits.set(who, visit)
      return visit
    },
  }
}

/** A mark for everything that stands in front of this person; a change makes a new one. */
export function marksOf(stage: Stage, who: string): Set<string> {
  const person = stage.as(who)
  const rooms = [undefined, ...roomsOf(readerAt(stage, who)).map((room) => room.id)]
  const mark = (message: Message) => `${message.channel}/${message.ts}/${message.edited?.ts ?? ''}`
  return new Set(rooms.flatMap((room) => person.messages(room).map(mark)))
}

export function unseen(stage: Stage, who: string, { seen }: Visit): number {
  return [...marksOf(stage, who)].filter((mark) => !seen.has(mark)).length
}
