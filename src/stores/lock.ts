import { randomUUID } from 'node:crypto'
import fs from 'node:fs'
import { StoreClosed } from '../desk/ports.ts'

/** Who holds a data folder. A process id alone is not enough: it is given to somebody else after a while. */
type Holder = {
  readonly pid: number
  readonly startedAt: string
  readonly machine: string
  readonly token: string
}

const touchEveryMs = 10_000
const silentAfterMs = 35_000

/**
 * Takes a folder for this process alone; throws `StoreClosed` when a living process has it. The lock of a
 * dead process is taken over. Gives back how to let go.
 */
export function lockFolder(path: string): () => void {
  const mine = { ...self(), token: randomUUID() }
  if (!createOnly(path, mine)) takeOver(path, mine)
  const touch = setInterval(() => fs.utimes(path, new Date(), new Date(), () => {}), touchEveryMs)
  touch.unref()
  return () => {
    clearInterval(touch)
    if (holderOf(path)?.token === mine.token) fs.rmSync(path, { force: true })
  }
}

/** Only one process at a time may judge a lock and replace it, or two would each replace the other's. */
function takeOver(path: string, mine: Holder) {
  const judging = `${path}.judging`
  if (!createOnly(judging, mine) && isAlive(judging)) throw refusal(path)
  try {
    if (isAlive(path)) throw refusal(path)
    fs.writeFileSync(judging, JSON.stringify(mine), { mode: 0o600 })
    fs.renameSync(judging, path)
  } finally {
    fs.rmSync(judging, { force: true })
  }
}

function isAlive(path: string): boolean {
  const holder = holderOf(path)
  if (!holder) return false
  const { machine } = self()
  // Inside another container or on another start of the machine its process ids say nothing to us.
  if (holder.machine !== machine) return Date.now() - fs.statSync(path).mtimeMs < silentAfterMs
  return startOf(holder.pid) === holder.startedAt
}

function refusal(path: string): StoreClosed {
  const pid = holderOf(path)?.pid
  return new StoreClosed(
    `Another process${pid === undefined ? '' : ` (${pid})`} works with this data folder. Stop it first; ` +
      `a lock left behind by a dead process is taken over by itself within ${silentAfterMs / 1000} seconds.`,
  )
}

function createOnly(path: string, holder: Holder): boolean {
  try {
    fs.writeFileSync(path, JSON.stringify(holder), { flag: 'wx', mode: 0o600 })
    return true
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false
    throw error
  }
}

/** Undefined when there is none, or when its process died before it had written its name. */
function holderOf(path: string): Holder | undefined {
  try {
    return JSON.parse(fs.readFileSync(path, 'utf8')) as Holder
  } catch {
    return undefined
  }
}

function self(): Omit<Holder, 'token'> {
  const boot = textOf('/proc/sys/kernel/random/boot_id')
  const space = linkOf('/proc/self/ns/pid')
  return { pid: process.pid, startedAt: startOf(process.pid) ?? '', machine: `${boot} ${space}` }
}

/** When a process was started, in the kernel's own ticks; '' where the system does not tell; undefined when it is not there. */
function startOf(pid: number): string | undefined {
  const stat = textOf(`/proc/${pid}/stat`)
  if (stat !== '') return stat.slice(stat.lastIndexOf(')') + 2).split(' ')[19]
  try {
    process.kill(pid, 0)
    return ''
  } catch {
    return undefined
  }
}

function textOf(path: string): string {
  try {
    return fs.readFileSync(path, 'utf8').trim()
  } catch {
    return ''
  }
}

function linkOf(path: string): string {
  try {
    return fs.readlinkSync(path)
  } catch {
    return ''
  }
}
