import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { differencesIn } from '../src/commands/scenario.ts'
import { team } from './rules/life.ts'

const folder = join(import.meta.dirname, 'scenarios')

for (const file of readdirSync(folder).filter((name) => name.endsWith('.json'))) {
  const { about } = JSON.parse(readFileSync(join(folder, file), 'utf8')) as { about: string }
  test(`${file}: ${about}`, () => expect(differencesIn(join(folder, file), team)).toEqual([]))
}
