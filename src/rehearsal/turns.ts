import type { Stage } from './stage.ts'

/** The terminal and the page act on one stage: one after the other, and each sees what the other did. */
export type Turns = {
  readonly stage: Stage
  /** Does it when everything before it is done, and answers when all that follows from it has happened. */
  take<T>(deed: () => Promise<T>): Promise<T>
  /** Calls the listener after every turn; the answer takes the listener away again. */
  whenTaken(listener: () => void): () => void
}

export function takeTurns(stage: Stage): Turns {
  const listeners = new Set<() => void>()
  let last: Promise<unknown> = Promise.resolve()
  const turn = async <T>(deed: () => Promise<T>): Promise<T> => {
    try {
      return await deed()
    } finally {
      await stage.settle()
      for (const listener of listeners) listener()
    }
  }
  return {
    stage,
    take(deed) {
      const mine = last.then(() => turn(deed))
      last = mine.catch(() => {})
      return mine
    },
    whenTaken(listener) {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
  }
}
