import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { doseOf, Ladder } from '../../src/chart/ladder.ts'
import { table } from '../../src/slack/blocks.ts'
import { doseInWords, doseRows } from '../../src/slack/words.ts'

const rungOf = (ladder: string, rung: number) => {
  const file = new URL(`../../shared/protocols/${ladder}.json`, import.meta.url)
  const { rungs } = Ladder.parse(JSON.parse(readFileSync(file, 'utf8')))
  return doseOf(rungs[rung - 1] as (typeof rungs)[number])
}

test('the first week in the treadmill is a table of four rows: what is done, and at what [vincent-2022]', () => {
  expect(doseRows(rungOf('tibial-stress-reaction-lbpp', 1))).toEqual([
    ['*Walk* 5 min (warm-up)', 'at 50 % of body weight'],
    ['*Run* 4 to 5 times 1 min', 'at 50 % of body weight\n8 to 11.3 km/h (5 to 7 mph)\nwalk between'],
    ['*Walk* 5 min (cool-down)', 'at 50 % of body weight'],
    ['*In all* 30 min', 'walking between the bouts'],
  ])
})

test('a phase that ends with a distance says how far in all, walking included, and the effort that is meant', () => {
  const dose = rungOf('walk-run-six-phases', 1)
  expect(doseRows(dose).slice(-2)).toEqual([
    ['*In all* 1.61 km (1 mi)', 'walking included: then stop'],
    ['*Effort*', 'about 3 of 10'],
  ])
  expect(doseInWords(dose).slice(-2)).toEqual([
    'In all 1.61 km (1 mi), walking included: then stop',
    'Effort about 3 of 10',
  ])
})

test('a long session is cut into blocks that the platform takes, with no row lost or torn', () => {
  const rows = Array.from({ length: 7 }, (_, i) => [`bout ${i}`, `pace ${i}`] as const)
  const blocks = table(rows) as { fields: { text: string }[] }[]
  expect(blocks.map((block) => block.fields.length)).toEqual([10, 4])
  expect(blocks.flatMap((block) => block.fields.map((field) => field.text))).toEqual(rows.flat())
})
