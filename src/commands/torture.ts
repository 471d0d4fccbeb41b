import { type ChildProcess, spawn } from 'node:child_process'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { firstBreak } from '../chart/chain.ts'
import { uncovered } from '../stores/cover.ts'
import { lowdbStore } from '../stores/lowdb.ts'
import { verifyFolder } from '../stores/mend.ts'
import { tortureBot } from './torture-bot.ts'

type Out = (line: string) => void

/**
 * A process under torture says on its standard output what somebody was told: `kept <subject> <id>` when a
 * submission was acknowledged, `told <key> first` or `told <key> unknown` when a notice went out. Whatever
 * can say that, over whichever wire, can be tortured.
 */
export type Victim = (folder: string, round: number, lastsMs: number) => ChildProcess

/**
 * `sanderling torture [--rounds N] [--store]`: kills the bot under a stream of signed requests again and again, or the
 * bare store under a stream of commits, and counts what was lost or doubled.
 */
export async function run(argv: readonly string[], out: Out): Promise<number> {
  const options = { rounds: { type: 'string', default: '500' }, store: { type: 'boolean' } } as const
  const { values } = parseArgs({ args: [...argv], options })
  const rounds = Number(values.rounds)
  if (!Number.isInteger(rounds) || rounds < 1) {
    out('torture [--rounds N] [--store]: N is a whole number from 1 on')
    return 2
  }
  const faults = await (values.store ? torture(rounds, storeWriter, out) : tortureBot(rounds, out))
  for (const fault of faults) out(fault)
  return faults.length > 0 ? 1 : 0
}

/** Rounds of start, write, kill -9, look; then one that may finish. Gives back what is wrong. */
export async function torture(rounds: number, victim: Victim, out: Out): Promise<string[]> {
  const folder = await mkdtemp(join(tmpdir(), 'sanderling-torture-'))
  const said: string[] = []
  const faults: string[] = []
  try {
    for (let round = 1; round <= rounds && faults.length === 0; round++) {
      await untilKilled(victim(folder, round, longMs), round, said)
      faults.push(...(await wrongIn(folder, said, { round, wholly: round % 5 === 0 })))
      if (round % 25 === 0)
        out(`${round} rounds: ${countOf(said, 'kept ')} acknowledged, ${countOf(said, 'told ')} told`)
    }
    if (faults.length > 0) return faults
    const code = await untilEnded(victim(folder, rounds + 1, drainMs), said)
    if (code !== 0) faults.push(`the last round ended with ${code}`)
    faults.push(
      ...(await wrongIn(folder, said, { round: rounds + 1, wholly: true })),
      ...(await untoldIn(folder, said)),
    )
    if (countOf(said, 'kept ') === 0) faults.push('nothing was acknowledged: this showed nothing')
    const { entries, charts } = await contentOf(folder)
    out(
      `${rounds} kills: ${countOf(said, 'kept ')} acknowledged, ${entries.length} entries in ${charts} charts, ${faults.length} faults`,
    )
    return faults
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

const longMs = 60_000
const drainMs = 500

/** The store alone, in a process of its own that commits and delivers. */
const storeWriter: Victim = (folder, round, lastsMs) => {
  const script = fileURLToPath(new URL('torture-writer.ts', import.meta.url))
  const args = ['--import', 'tsx', script, folder, `${round}`, `${lastsMs}`]
  return spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'inherit'] })
}

/** Two rounds of three die some time after they spoke; the third dies at any moment, its start included. */
async function untilKilled(child: ChildProcess, round: number, said: string[]) {
  const ended = untilEnded(child, said)
  if (round % 3 !== 0)
    await new Promise((resolve) => child.stdout?.once('data', resolve).once('end', resolve))
  await new Promise((resolve) => setTimeout(resolve, Math.random() * 400))
  child.kill('SIGKILL')
  await ended
}

async function untilEnded(child: ChildProcess, said: string[]): Promise<number | null> {
  let rest = ''
  child.stdout?.on('data', (text) => {
    const parts = (rest + text).split('\n')
    rest = parts.pop() ?? ''
    for (const line of parts) said.push(line)
  })
  return new Promise((resolve) => child.once('close', resolve))
}

/** Looks at the files as the kill left them, and when asked wholly, also at every entry through a start. */
async function wrongIn(
  folder: string,
  said: readonly string[],
  { round, wholly }: { round: number; wholly: boolean },
): Promise<string[]> {
  const verified = await verifyFolder(folder, uncovered).catch((error) =>
    error.code === 'ENOENT' ? [] : Promise.reject(error),
  )
  const faults = verified.flatMap(({ subject, wrong }) =>
    wrong ? [`round ${round}: ${subject}, line ${wrong.line}: ${wrong.why}`] : [],
  )
  const firsts = said.filter((line) => line.startsWith('told ') && line.endsWith(' first'))
  if (new Set(firsts).size !== firsts.length)
    faults.push(`round ${round}: a notice went out twice without a doubt`)
  if (!wholly || faults.length > 0) return faults

  const { entries, broken } = await contentOf(folder)
  const there = new Set(entries)
  if (there.size !== entries.length) faults.push(`round ${round}: an entry is there twice`)
  for (const subject of broken) faults.push(`round ${round}: the hashes of ${subject} do not fit`)
  for (const line of said)
    if (line.startsWith('kept ') && !there.has(line.slice(5)))
      faults.push(`round ${round}: lost ${line.slice(5)}`)
  return faults
}

async function untoldIn(folder: string, said: readonly string[]): Promise<string[]> {
  const told = new Set(said.filter((line) => line.startsWith('told ')).map((line) => line.split(' ')[1]))
  const { entries } = await contentOf(folder)
  const ids = entries.map((entry) => entry.split(' ')[1] ?? '')
  return ids.filter((id) => !told.has(id)).map((id) => `nobody was told of ${id}`)
}

/** All entries, each as `<subject> <id>`, through an ordinary start. */
async function contentOf(folder: string): Promise<{ entries: string[]; charts: number; broken: string[] }> {
  const store = await lowdbStore(folder, { onDamage: 'refuse' })
  const entries: string[] = []
  const broken: string[] = []
  const index = await store.index()
  for (const { subject } of index) {
    const chart = await store.read(subject)
    if (firstBreak(chart) !== undefined) broken.push(subject)
    for (const { id } of chart) entries.push(`${subject} ${id}`)
  }
  await store.close()
  return { entries, charts: index.length, broken }
}

const countOf = (said: readonly string[], start: string) =>
  said.filter((line) => line.startsWith(start)).length
