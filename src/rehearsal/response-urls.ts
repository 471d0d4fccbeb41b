import { randomBytes } from 'node:crypto'
import { type Clock, readClock } from './clock.ts'

const maxUses = 5
const lifeMs = 30 * 60_000

/** Where an answer given later goes: to one person in one room, or over the message that was pressed. */
export type ReplyTarget = {
  readonly person: string
  readonly channel: string
  readonly messageTs?: string
}

export type ResponseUrls = {
  issue(target: ReplyTarget): string
  /** Counts one use: five, within thirty minutes. */
  use(id: string): ReplyTarget | { readonly refused: 'expired_url' | 'used_url' | 'no_such_url' }
}

export function openResponseUrls(clock: Clock): ResponseUrls {
  const issued = new Map<string, { readonly target: ReplyTarget; readonly atMs: number; uses: number }>()
  return {
    issue(target) {
      const id = randomBytes(12).toString('hex')
      issued.set(id, { target, atMs: readClock(clock), uses: 0 })
      return id
    },
    use(id) {
      const found = issued.get(id)
      if (!found) return { refused: 'no_such_url' }
      if (readClock(clock) - found.atMs >= lifeMs) return { refused: 'expired_url' }
      if (found.uses >= maxUses) return { refused: 'used_url' }
      found.uses += 1
      return found.target
    },
  }
}
