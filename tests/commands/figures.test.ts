import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { run } from '../../src/commands/figures.ts'
import { allFigures } from '../../src/science/figures/all-figures.ts'
import { asked } from './asked.ts'

test('every published figure is a row of the table, and none is outside what is allowed', async () => {
  const { exit, out } = await asked(run, [])
  const rows = out.split('\n').filter((line) => /^\| [LNC]/.test(line))
  expect(exit).toBe(0)
  expect(rows).toHaveLength(Object.values(allFigures).flat().length)
  expect(out).toContain('0 outside what is allowed')
  expect(rows.every((row) => row.split('|').length === 10)).toBe(true)
})

test('the table in the README is what the command prints today', async () => {
  const readme = readFileSync('README.md', 'utf8')
  const kept = readme.split('<!-- figures -->\n')[1]?.split('\n<!-- /figures -->')[0]
  expect(kept).toBe((await asked(run, [])).out.trim())
})
