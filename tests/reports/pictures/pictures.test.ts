import { describe, expect, test } from 'vitest'
import { type Chart, readChart } from '../../../src/chart/chart.ts'
import type { Entry } from '../../../src/chart/entries.ts'
import { drawPng, drawSvg } from '../../../src/reports/pictures/draw.ts'
import { painAndDose } from '../../../src/reports/pictures/pain-and-dose.ts'
import { pictures } from '../../../src/reports/pictures/pictures.ts'
import { readinessPicture } from '../../../src/reports/pictures/readiness.ts'
import { weekLoad } from '../../../src/reports/pictures/week-load.ts'

const today = '2026-03-20'

describe('pain and dose', () => {
  test('a morning without an answer is a gap, never a zero', () => {
    const { spec, alt } = painAndDose(chartOf([checkIn('2026-03-18', 2), checkIn('2026-03-20', 0)]), today, 3)
    const values = JSON.stringify(spec)
    expect(values).toContain('{"day":"2026-03-19","pain":null,"which":"worst in 24 h"}')
    expect(values).not.toContain('{"day":"2026-03-19","pain":0')
    expect(alt).toContain('2 mornings answered, 1 without an answer.')
  })

  test('the words say the worst morning and the last run', () => {
    const { alt } = painAndDose(chartOf([checkIn('2026-03-18', 2), run('2026-03-19', 60, 3)]), today, 7)
    expect(alt).toContain('Worst pain 2 of 10 on 2026-03-18.')
    expect(alt).toContain('the last on 2026-03-19: 10 minutes at 60 percent of body weight')
  })

  test('a dose that staff weighed in the machine is drawn as weighed', () => {
    const weighed = run('2026-03-19', 60, 3)
    const first = { ...weighed.bouts[0], measuredBodyWeightPct: 64 }
    const { spec } = painAndDose(chartOf([{ ...weighed, bouts: [first] } as Entry]), today, 7)
    expect(JSON.stringify(spec)).toContain('"bodyWeightPct":64')
  })
})

test('a week of load is effort times minutes, and claims nothing more [foster-2001]', () => {
  const { spec, alt } = weekLoad(chartOf([run('2026-03-18', 60, 3), run('2026-03-20', 60, 4)]), today, 2)
  expect(JSON.stringify(spec)).toContain('"load":70')
  expect(alt).toContain('predicts nothing')
})

test('readiness is not drawn before there are seven earlier mornings to compare with', () => {
  const mornings = (count: number) =>
    Array.from({ length: count }, (_, i) => ({
      ...checkIn(`2026-03-${String(20 - count + i).padStart(2, '0')}`, 0),
      sleep: 2 + (i % 2),
    }))
  const now = { ...checkIn(today, 0), sleep: 5 }
  expect(readinessPicture(chartOf([...mornings(6), now] as Entry[]), today)).toBeUndefined()
  expect(readinessPicture(chartOf([...mornings(7), now] as Entry[]), today)?.alt).toContain(
    'sleep worse than usual',
  )
})

describe('the drawing', () => {
  const picture = painAndDose(chartOf([checkIn('2026-03-18', 2), run('2026-03-19', 60, 3)]), today, 14)

  test('is the same to the byte when it is drawn twice', async () => {
    const [a, b] = [await drawPng(picture), await drawPng(picture)]
    expect(Buffer.from(a).equals(Buffer.from(b))).toBe(true)
  })

  test('has its text: without the bundled font the picture is another one', async () => {
    const { Resvg } = await import('@resvg/resvg-js')
    const svg = await drawSvg(picture)
    const bare = new Resvg(svg, {
      background: 'white',
      fitTo: { mode: 'zoom', value: 2 },
      font: { loadSystemFonts: false },
    })
    expect(Buffer.from(await drawPng(picture)).length).toBeGreaterThan(bare.render().asPng().length * 1.1)
  })

  test('is legible at the width of a phone', async () => {
    const png = Buffer.from(await drawPng(picture))
    const [width, height] = [png.readUInt32BE(16), png.readUInt32BE(20)]
    expect(width / 2).toBeLessThanOrEqual(480)
    expect(height / width).toBeLessThan(1.5)
  })

  test('of a chart with too little to draw is none', async () => {
    expect(await pictures.draw('ladder', chartOf([]), today)).toBeUndefined()
  })
})

function chartOf(entries: readonly Entry[]): Chart {
  return readChart('mika', entries)
}

const signed = (id: string, day: string) => ({
  id,
  athlete: 'mika',
  author: 'mika',
  recordedAt: `${day}T07:00:00.000Z`,
})

function checkIn(day: string, worstPain: number) {
  return {
    ...signed(`check-in/mika/${day}`, day),
    kind: 'check-in',
    day,
    worstPain,
    morningPain: 0,
    swelling: 'no',
    signs: { always: [] },
  } as const satisfies Entry
}

function run(day: string, bodyWeightPct: number, rpe: number) {
  const bouts = [{ gait: 'run' as const, bodyWeightPct, speedMps: 3, inclinePct: 0, minutes: 2, repeats: 5 }]
  return {
    ...signed(`session/mika/${day}`, day),
    kind: 'session-done' as const,
    day,
    rung: 1,
    bouts,
    painBefore: 0,
    painDuring: 0,
    painAfter: 0,
    rpe,
  }
}
