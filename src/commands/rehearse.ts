import { existsSync, readdirSync } from 'node:fs'
import { createInterface, type Interface } from 'node:readline'
import { parseArgs } from 'node:util'
import { isLoopback, openPage } from '../rehearsal/page/server.ts'
import { stories } from '../rehearsal/stories/stories.ts'
import { clockLine, help, openTerminal, type Terminal } from '../rehearsal/terminal.ts'
import { takeTurns } from '../rehearsal/turns.ts'
import { openFirstMorning, openRehearsal } from './open-rehearsal.ts'

type Out = (line: string) => void

const usage =
  'rehearse [--port N] [--keep DIR]       stays up, to be acted in from a page and from the terminal\n' +
  `rehearse --story [NAME] [--keep DIR]   plays by itself: ${Object.keys(stories).join(', ')}`

/**
 * The real bot against the stand-in workspace, on loopback, on a clock that is pushed. A story ends with 1 when
 * a promise of it was not kept; without a story it stays up until it is told to end. Bad input: 2.
 */
export async function run(argv: readonly string[], out: Out, input: NodeJS.ReadableStream = process.stdin) {
  const asked = read(argv)
  if (typeof asked === 'string') {
    process.stderr.write(`${asked}\n${usage}\n`)
    return 2
  }
  return asked.story ? play(asked.story, asked.keep, out) : stayUp(asked, out, input)
}

type Asked = {
  readonly story?: string
  readonly keep?: string
  readonly host: string
  readonly port: number
}

const usualPort = 8420

function read(argv: readonly string[]): Asked | string {
  const text = { type: 'string' } as const
  const options = { story: { type: 'boolean' }, keep: text, host: text, port: text } as const
  try {
    const { values, positionals } = parseArgs({ args: [...argv], options, allowPositionals: true })
    const [name = Object.keys(stories)[0] ?? '', ...more] = positionals
    if (more.length > 0 || (positionals.length > 0 && !values.story))
      return `${positionals.join(' ')}: unknown.`
    if (values.story && !Object.hasOwn(stories, name)) return `There is no story ${name}.`
    const { keep } = values
    if (keep === '' || (keep && existsSync(keep) && readdirSync(keep).length > 0))
      return `--keep needs a folder that is empty or not there yet.`
    const { host = '127.0.0.1', port = String(usualPort) } = values
    if (!isLoopback(host)) return `The page is served on loopback only, never on ${host}.`
    if (!/^\d{1,5}$/.test(port) || Number(port) > 65535)
      return `--port ${port}: a port is a number, 0 to 65535.`
    return { host, port: Number(port), ...(values.story && { story: name }), ...(keep && { keep }) }
  } catch (error) {
    return error instanceof Error ? (error.message.split('\n')[0] ?? '') : String(error)
  }
}

async function play(name: string, keep: string | undefined, out: Out): Promise<number> {
  const rehearsal = await openRehearsal({ say: out, ...(keep && { keep }) })
  const { stage } = rehearsal
  try {
    await stories[name]?.(stage)
    for (const promise of stage.broken) out(`not kept: ${promise}`)
    out(
      stage.broken.length === 0
        ? '\nThe story ended as it should.'
        : `\n${stage.broken.length} promises were not kept.`,
    )
    const others = Object.keys(stories).filter((other) => other !== name)
    out(`There is more to see: ${others.map((other) => `--story ${other}`).join(', ')}.`)
    if (keep) out(`The charts are kept in ${keep}.`)
    return stage.broken.length === 0 ? 0 : 1
  } finally {
    await rehearsal.close()
  }
}

async function stayUp({ keep, host, port }: Asked, out: Out, input: NodeJS.ReadableStream): Promise<number> {
  const rehearsal = await openFirstMorning({ say: out, ...(keep && { keep }) })
  try {
    const turns = takeTurns(rehearsal.stage)
    const page = await openPage(turns, { host, port }).catch(portTaken)
    if (!page) return 2
    const terminal = openTerminal(turns)
    out(
      'The rehearsal is up: the real bot in an invented clinic, nobody behind it; nothing leaves this machine.',
    )
    out(`Open ${page.url} to act as each person, or act from here:`)
    out('')
    for (const line of help) out(line)
    out('')
    out(clockLine(rehearsal.stage))
    out('It stays up until "quit" or Ctrl-C.')
    const lines = linesOf(input)
    await Promise.race([toldToEnd(), obey(lines, terminal, out)])
    lines.close()
    await page.close()
    return 0
  } finally {
    await rehearsal.close()
  }
}

function portTaken(error: NodeJS.ErrnoException): undefined {
  if (error.code !== 'EADDRINUSE' && error.code !== 'EACCES') throw error
  process.stderr.write(
    `The page cannot have that port (${error.code}). Name another: --port 0 takes any free one.\n`,
  )
}

/** Resolves when somebody says quit. The end of the input is no reason to end: the page may be in use. */
async function obey(lines: Interface, terminal: Terminal, out: Out): Promise<void> {
  lines.prompt()
  for await (const line of lines) {
    const answer = await terminal(line)
    if (!answer) return
    for (const words of answer) out(words)
    lines.prompt()
  }
  return new Promise(() => {})
}

function linesOf(input: NodeJS.ReadableStream): Interface {
  const typed = 'isTTY' in input && input.isTTY === true
  return createInterface({ input, prompt: typed ? '> ' : '', ...(typed && { output: process.stdout }) })
}

function toldToEnd(): Promise<void> {
  return new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve())
  })
}
