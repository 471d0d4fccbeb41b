import { type ChildProcess, fork } from 'node:child_process'
import { once } from 'node:events'

/** A server in a process of its own, started and ended by us. */
export type Child = {
  /** Where it listens. Rejects with what it said when it ends before. */
  readonly listening: Promise<string>
  /** Megabytes that it holds now. */
  rssMib(): Promise<number>
  /** Ends it without a word, as a power cut would. Resolves when it is gone. */
  kill(): Promise<void>
}

/** Starts a file of this folder that sends `{ port }` once it listens. */
export function startChild(file: string, argv: readonly string[]): Child {
  const path = new URL(file, import.meta.url)
  const child = fork(path, argv, {
    execArgv: ['--import', 'tsx'],
    stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
  })
  let said = ''
  child.stderr?.on('data', (part) => {
    said = `${said}${part}`.slice(-4000)
  })
  const ended = once(child, 'exit')
  const listening = Promise.race([
    answerOf(child, 'port').then((port) => `http://127.0.0.1:${port}/slack/events`),
    ended.then((): string => {
      throw new Error(`${file} ended before it listened: ${said}`)
    }),
  ])
  // Whoever kills it at its start does not wait for it to listen.
  listening.catch(() => {})
  return {
    listening,
    rssMib: async () => {
      child.send('memory')
      return (await answerOf(child, 'rss')) / 2 ** 20
    },
    kill: async () => {
      child.kill('SIGKILL')
      await ended
    },
  }
}

async function answerOf(child: ChildProcess, name: 'port' | 'rss'): Promise<number> {
  for (;;) {
    const [message] = (await once(child, 'message')) as [Record<string, number>]
    const value = message[name]
    if (value !== undefined) return value
  }
}
