import { spawn } from 'node:child_process'
import { expect, test } from 'vitest'
import { run, torture } from '../../src/commands/torture.ts'

test('a process that is killed twenty-five times loses and doubles nothing', async () => {
  const lines: string[] = []
  expect(await run(['--store', '--rounds', '25'], (line) => lines.push(line)), lines.join('; ')).toBe(0)
  expect(lines.at(-1)).toMatch(/^25 kills: [1-9]\d+ acknowledged, \d+ entries in 6 charts, 0 faults$/)
}, 120_000)

test('the bot that is killed twenty-five times keeps every submission that was acknowledged, each once', async () => {
  const lines: string[] = []
  expect(await run(['--rounds', '25'], (line) => lines.push(line)), lines.join('; ')).toBe(0)
  expect(lines.at(-1)).toMatch(/^25 kills: [1-9]\d+ acknowledged, \d+ entries in \d+ charts, 0 faults$/)
}, 180_000)

test('a process that says what is not so is found out', async () => {
  const liar = (...lies: string[]) => {
    const code = `process.stdout.write(${JSON.stringify(`${lies.join('\n')}\n`)})`
    return torture(
      1,
      () => spawn(process.execPath, ['-e', code], { stdio: ['ignore', 'pipe', 'inherit'] }),
      () => {},
    )
  }
  expect(await liar('told x first', 'told x first')).toEqual([
    'round 1: a notice went out twice without a doubt',
  ])
  expect(await liar('kept ada never-written')).toContain('round 2: lost ada never-written')
})
