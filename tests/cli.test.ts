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

test.each([
  ['store verify --data no-such-folder', 'no-such-folder/charts: there is no such file or folder'],
  ['prove words --file no-such-file.jsonl', 'no-such-file.jsonl: there is no such file or folder'],
  ['prove words --file src', 'this is a folder, not a file'],
])('a file that cannot be opened is one line that names it: %s', async (line, says) => {
  const { code, stderr } = await typed(line)
  expect([code, stderr.trim().split('\n').length]).toEqual([2, 1])
  expect(stderr).toContain(says)
})

test('a labelled sentence that is none is named by file and line, with what is allowed', async () => {
  const { code, stdout } = await typed('prove words --file README.md')
  expect(code).toBe(2)
  expect(stdout).toMatch(/^README\.md:1: wanted is .*"emergency".*"none"/)
})

test('rounds of torture are a whole number, and nothing is killed for less', async () => {
  expect(await typed('torture --rounds many')).toMatchObject({ code: 2 })
})

test('a reader that stops early ends the command quietly', async () => {
  const { code, stderr } = await typed('figures | head -1')
  expect([code, stderr]).toEqual([0, ''])
})

function typed(line: string): Promise<{ code: number; stdout: string; stderr: string }> {
  const shell = `set -o pipefail; node --import tsx src/cli.ts ${line}`
  return new Promise((resolve) => {
    execFile('bash', ['-c', shell], { timeout: 30_000 }, (error, stdout, stderr) =>
      resolve({ code: error ? Number(error.code) : 0, stdout, stderr }),
    )
  })
}
