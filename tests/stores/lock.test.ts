import { type ChildProcess, spawn } from 'node:child_process'
import fs from 'node:fs'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { StoreClosed } from '../../src/desk/ports.ts'
import { lockFolder } from '../../src/stores/lock.ts'
import { lowdbStore } from '../../src/stores/lowdb.ts'
import { commitOf } from './commits.ts'
import { emptyFolder } from './folders.ts'

let folder: string
let lock: string
const children: ChildProcess[] = []
beforeEach(async () => {
  folder = await emptyFolder()
  lock = join(folder, 'lock')
})
afterEach(() => {
  for (const child of children.splice(0)) child.kill('SIGKILL')
  fs.rmSync(folder, { recursive: true })
})

/** Another process that has the folder. */
async function holder(): Promise<ChildProcess> {
  const script = new URL('hold.script.ts', import.meta.url).pathname
  const child = spawn(process.execPath, ['--import', 'tsx', script, folder], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  children.push(child)
  await new Promise((resolve) => child.stdout.once('data', resolve))
  return child
}

const ended = (child: ChildProcess) => new Promise((resolve) => child.once('exit', resolve))

describe('the lock of a data folder', () => {
  test('a second process refuses, says who has it, and harms nothing', async () => {
    const child = await holder()
    await expect(lowdbStore(folder)).rejects.toThrow(
      `Another process (${child.pid}) works with this data folder`,
    )
    await expect(lowdbStore(folder)).rejects.toThrow(StoreClosed)
    child.kill('SIGTERM')
    await ended(child)
    await (await lowdbStore(folder)).close()
  })

  test('the lock of a process that was killed is taken over', async () => {
    const child = await holder()
    child.kill('SIGKILL')
    await ended(child)
    expect(fs.existsSync(lock)).toBe(true)
    const store = await lowdbStore(folder)
    expect(await store.commit(commitOf('ada', 0))).toEqual({ committed: true, length: 1 })
    await store.close()
    expect(fs.existsSync(lock)).toBe(false)
  })

  test('a process id that was given to somebody else does not count as alive', async () => {
    const unlock = lockFolder(lock)
    const holds = JSON.parse(fs.readFileSync(lock, 'utf8'))
    expect(() => lockFolder(lock)).toThrow(StoreClosed)
    fs.writeFileSync(lock, JSON.stringify({ ...holds, startedAt: `${Number(holds.startedAt) - 1}` }))
    const unlockAgain = lockFolder(lock)
    unlock()
    expect(fs.existsSync(lock)).toBe(true)
    unlockAgain()
    expect(fs.existsSync(lock)).toBe(false)
  })

  test('a lock from another machine or container is taken over only after it fell silent', () => {
    const ago = (seconds: number) => {
      fs.writeFileSync(lock, JSON.stringify({ pid: 1, startedAt: '1', machine: 'elsewhere', token: 'x' }))
      fs.utimesSync(lock, Date.now() / 1000, Date.now() / 1000 - seconds)
    }
    ago(5)
    expect(() => lockFolder(lock)).toThrow('Another process (1)')
    ago(60)
    lockFolder(lock)()
  })

  test('a lock that nobody finished writing is nobody’s', () => {
    fs.writeFileSync(lock, '')
    lockFolder(lock)()
    fs.writeFileSync(`${lock}.judging`, '')
    fs.writeFileSync(lock, '')
    lockFolder(lock)()
    expect(fs.readdirSync(folder)).toEqual([])
  })

  test('of ten processes that find a stale lock at once, one gets it', async () => {
    fs.writeFileSync(lock, JSON.stringify({ pid: 999_999_999, startedAt: '1', machine: '', token: 'x' }))
    fs.utimesSync(lock, 1, 1)
    const script = new URL('hold.script.ts', import.meta.url).pathname
    const answers = await Promise.all(
      Array.from({ length: 10 }, async () => {
        const child = spawn(process.execPath, ['--import', 'tsx', script, folder], {
          stdio: ['ignore', 'pipe', 'pipe'],
        })
        children.push(child)
        return new Promise<string>((resolve) => {
          child.stdout.once('data', () => resolve('open'))
          child.once('exit', () => resolve('refused'))
        })
      }),
    )
    expect(answers.filter((answer) => answer === 'open')).toHaveLength(1)
  })
})
