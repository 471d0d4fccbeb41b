import { spawn } from 'node:child_process'
import { existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { afterAll, describe, expect, test } from 'vitest'

const root = new URL('../../..', import.meta.url).pathname
const folder = mkdtempSync(join(tmpdir(), 'sanderling-terminal-'))

afterAll(() => rmSync(folder, { recursive: true }))

/** The command as a shell starts it, with what it has said so far. */
function rehearse(...argv: string[]) {
  const child = spawn(process.execPath, ['--import', 'tsx', 'src/cli.ts', 'rehearse', ...argv], { cwd: root })
  let said = ''
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (words) => (said += words))
  const ended = new Promise<number | null>((resolve) => child.once('close', resolve))
  const until = async (words: string) => {
    for (let tries = 0; !said.includes(words) && tries < 300; tries += 1) await pause(100)
    expect(said).toContain(words)
  }
  return { child, ended, until, said: () => said }
}

test('piped lines are acted on in order, and quit ends it with 0', async () => {
  const { child, ended, said } = rehearse('--port', '0')
  child.stdin.end('mika /checkin\nmika close\nnoor /today\nquit\n')
  expect(await ended).toBe(0)
  expect(said()).toContain('mika press "Check in"')
  expect(said()).toMatch(
    /The form "Check-in"[\s\S]*Noor Castell sees[\s\S]*Mika Oddvar: waiting for the check-in/,
  )
})

test('it stays up when the input ends, until a signal comes', async () => {
  const { child, ended, until, said } = rehearse('--port', '0')
  child.stdin.end('clock +15m\n')
  await until('06:45')
  const [address = ''] = /http:\/\/127\.0\.0\.1:\d+\//.exec(said()) ?? []
  expect(await (await fetch(`${address}as/mika`)).text()).toContain('Mon 16 Mar, 06:45')
  const second = rehearse('--port', new URL(address).port)
  expect(await second.ended).toBe(2)
  expect(second.said()).toContain('Name another')
  await pause(500)
  expect(child.exitCode).toBeNull()
  child.kill('SIGTERM')
  expect(await ended).toBe(0)
})

test('the charts are kept where somebody asks for it, and nowhere else', async () => {
  const kept = join(folder, 'kept')
  const { child, ended } = rehearse('--port', '0', '--keep', kept)
  child.stdin.end('quit\n')
  expect(await ended).toBe(0)
  expect(readdirSync(join(kept, 'charts'))).toContain('mika.jsonl')
})

describe('what cannot be rehearsed is refused with 2, before anything starts', () => {
  writeFileSync(join(folder, 'something'), 'there')
  const cases = [
    { argv: ['--story', 'no-such'], says: 'There is no story no-such.' },
    { argv: ['--loudly'], says: '--loudly' },
    { argv: ['--host', '0.0.0.0'], says: 'on loopback only, never on 0.0.0.0' },
    { argv: ['--port', 'high'], says: 'a port is a number' },
    { argv: ['three-weeks'], says: 'three-weeks: unknown.' },
    { argv: ['--keep', folder], says: 'a folder that is empty or not there yet' },
  ]
  for (const { argv, says } of cases)
    test(argv.join(' '), async () => {
      const { ended, said } = rehearse(...argv)
      expect(await ended).toBe(2)
      expect(said()).toContain(says)
      expect(existsSync(join(folder, 'charts'))).toBe(false)
    })
})
