import type { App } from '@slack/bolt'

/** Counts what is being worked on, because the framework's own stop does not wait for it. */
export type UnderWay = { idle(): Promise<void> }

export function countUnderWay(app: App): UnderWay {
  let count = 0
  let waiting: (() => void)[] = []
  app.use(async ({ next }) => {
    count += 1
    try {
      await next()
    } finally {
      count -= 1
      if (count === 0) {
        for (const resolve of waiting) resolve()
        waiting = []
      }
    }
  })
  return { idle: () => (count === 0 ? Promise.resolve() : new Promise((resolve) => waiting.push(resolve))) }
}
