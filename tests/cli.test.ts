import { execFile } from 'node:child_process'
import { expect, test } from 'vitest'

test('a command that nobody knows is answered with those there are', async () => {
  const { code, stderr } = await typed('sprint')
  expect(code).toBe(2)
  expect(stderr).toMatch(/^Say one of: .*decide.*\n$/)
})

test('an option that a command does not take is one line, not a trace', async () => {
  const { code, stderr } = await typed('manifest --colour red')
  expect([code, stderr.trim().split('\n').length]).toEqual([2, 1])
  expect(stderr).toContain('--colour')
})

test('a reader that stops early ends the command quietly', async () => {
  const { code, stderr } = await typed('figures | head -1')
  expect([code, stderr]).toEqual([0, ''])
})

function typed(line: string): Promise<{ code: number; stderr: string }> {
  const shell = `set -o pipefail; node --import tsx src/cli.ts ${line}`
  return new Promise((resolve) => {
    execFile('bash', ['-c', shell], { timeout: 30_000 }, (error, _, stderr) =>
      resolve({ code: error ? Number(error.code) : 0, stderr }),
    )
  })
}
