import { randomBytes } from 'node:crypto'
import { type Clock, readClock } from './clock.ts'

const lifeMs = 3000

/** A trigger lets the app open one view for one person: once, and within three seconds. */
export type Trigger = { readonly person: string; readonly modal?: string }

export type Triggers = {
  issue(trigger: Trigger): string
  /** Uses the trigger up. */
  redeem(id: string): Trigger | { readonly refused: string }
}

export function openTriggers(clock: Clock): Triggers {
  const issued = new Map<string, { readonly trigger: Trigger; readonly atMs: number; used: boolean }>()
  let number = 0
  return {
    issue(trigger) {
      const id = `${++number}.${readClock(clock)}.${randomBytes(8).toString('hex')}`
      issued.set(id, {
        trigger,
        atMs: readClock(clock),
        used: false,
      })
      return id
    },
    redeem(id) {
      const found = issued.get(id)
      if (!found) return { refused: 'invalid_trigger_id' }
      if (found.used) return { refused: 'exchanged_trigger_id' }
      if (readClock(clock) - found.atMs >= lifeMs) return { refused: 'expired_trigger_id' }
      found.used = true
      return found.trigger
    },
  }
}
