import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join, relative, resolve } from 'node:path'
import fc from 'fast-check'
import { sampleCorrelation } from 'simple-statistics'
import { expect, test } from 'vitest'
import { ewma, rollingRatio, trendCaution, trendOf } from '../../src/science/trend.ts'
import { normal, seeded } from './seeded.ts'

const src = resolve(import.meta.dirname, '../../src')

/** Files that reach science/trend.ts by any chain of imports. */
function reachesTrend(files: ReadonlyMap<string, string>): Set<string> {
  const reached = new Set([join(src, 'science/trend.ts')])
  const imports = (text: string) =>
    [...text.matchAll(/(?:from|import)\s*\(?\s*'(\.[^']+)'/g)].map((found) => String(found[1]))
  for (let grown = true; grown; ) {
    grown = false
    for (const [file, text] of files)
      if (!reached.has(file) && imports(text).some((path) => reached.has(resolve(dirname(file), path)))) {
        reached.add(file)
        grown = true
      }
  }
  return reached
}

const written = new Map(
  readdirSync(src, { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.ts'))
    .map((path) => [join(src, path), readFileSync(join(src, path), 'utf8')] as const),
)
const deciding = (files: ReadonlyMap<string, string>) =>
  [...reachesTrend(files)]
    .map((file) => relative(src, file))
    .filter((file) => /^(chart|rules|desk)\//.test(file))

test('no rule, chart or desk file reaches the acute and chronic trend by any import [impellizzeri-2020]', () => {
  expect(written.size).toBeGreaterThan(30)
  expect(deciding(written)).toEqual([])
})

test('and a rule that did, even through another file, would be found', () => {
  const direct = new Map(written).set(
    join(src, 'rules/planted.ts'),
    "import { trendOf } from '../science/trend.ts'",
  )
  const roundabout = new Map(written)
    .set(join(src, 'science/planted.ts'), "export * from './trend.ts'")
    .set(join(src, 'rules/planted.ts'), "const { trendOf } = await import('../science/planted.ts')")
  expect(deciding(direct)).toEqual(['rules/planted.ts'])
  expect(deciding(roundabout)).toEqual(['rules/planted.ts'])
})

test('the criticism stands beside the trend [impellizzeri-2020]', () => {
  expect(trendCaution.words).toMatch(/not a validated predictor/)
})

test('no load at all gives no ratio but a reason, and no day gives nothing', () => {
  expect(trendOf([0, 0, 0])).toMatchObject({
    ewmaRatio: null,
    reason: expect.stringContaining('nothing to divide'),
  })
  expect(trendOf([])).toMatchObject({ ewmaAcute: null, ewmaChronic: null, ewmaRatio: null })
})

test('an average lies between the least and the most load', () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: 0, max: 2000, noNaN: true }), { minLength: 1, maxLength: 60 }),
      (loads) => {
        const average = Number(ewma(loads, 7))
        expect(average).toBeGreaterThanOrEqual(Math.min(...loads) - 1e-9)
        expect(average).toBeLessThanOrEqual(Math.max(...loads) + 1e-9)
      },
    ),
  )
})

test('the coupled ratio needs 28 days and never exceeds 4 [lolli-2019]', () => {
  expect(
    rollingRatio(
      Array.from({ length: 27 }, () => 1),
      'coupled',
    ),
  ).toBeNull()
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: 0, max: 1000, noNaN: true }), { minLength: 28, maxLength: 28 }),
      (loads) => {
        expect(rollingRatio(loads, 'coupled') ?? 0).toBeLessThanOrEqual(4 + 1e-9)
      },
    ),
  )
})

test('an acute week correlates 0.5 with a month that contains it, of pure chance [lolli-2019]', () => {
  const random = seeded(7)
  const months = Array.from({ length: 8000 }, () => Array.from({ length: 4 }, () => normal(random)))
  const acute = months.map((weeks) => Number(weeks[3]))
  const chronic = months.map((weeks) => weeks.reduce((a, b) => a + b, 0) / 4)
  expect(Math.abs(sampleCorrelation(acute, chronic) - 0.5)).toBeLessThan(0.02)
})
