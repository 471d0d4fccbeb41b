import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import type { Morning } from '../../src/rules/morning.ts'
import { isRaised } from '../../src/rules/red-flag.ts'
import { type Cases, type Remarkable, redFlags } from '../../src/rules/red-flags.ts'

/** A case that raises each row, and its nearest miss. */
const cases: Cases = {
  'short-of-breath': { raises: { signs: ['short-of-breath'] }, misses: { signs: ['racing-heart'] } },
  'chest-or-faint': { raises: { signs: ['chest-pain'] }, misses: { heard: ['collapse/next-session'] } },
  'saddle-numb': { raises: { signs: ['saddle-numb'] }, misses: { heard: ['compartment/urgent'] } },
  'limb-danger': { raises: { signs: ['limb-danger'] }, misses: { heard: ['tight-in-runs/next-session'] } },
  'foot-danger': { raises: { signs: ['foot-danger'] }, misses: { signs: ['cannot-walk'] } },
  'limb-deformed': { raises: { signs: ['cannot-walk', 'limb-danger'] }, misses: { signs: ['limb-danger'] } },
  'head-danger': { raises: { signs: ['head-danger'] }, misses: { signs: ['head-knock'] } },
  heat: { raises: { heard: ['heat/emergency'] }, misses: { temperatureC: 40 } },
  'infection-unwell': {
    raises: { signs: ['very-unwell'], temperatureC: 38.0 },
    misses: { signs: ['very-unwell'], temperatureC: 37.9 },
  },
  'bleeding-or-allergy': { raises: { heard: ['bleeding/emergency'] }, misses: { signs: ['wound'] } },
  'self-harm': { raises: { heard: ['self-harm/emergency'] }, misses: { heard: ['mood/urgent'] } },
  calf: { raises: { signs: ['calf'] }, misses: { signs: ['hot-joint'] } },
  infection: { raises: { temperatureC: 38.0 }, misses: { temperatureC: 37.9 } },
  knee: { raises: { signs: ['gave-way'] }, misses: { heard: ['knee/next-session'] } },
  'more-swollen': {
    raises: { moreSwollen: 'yes', patient: { tissue: 'joint' } },
    misses: { moreSwollen: 'yes', patient: { tissue: 'bone' } },
  },
  'bone-pain-at-night': {
    raises: { signs: ['bone-pain-at-night', 'sore-spot'] },
    misses: { signs: ['bone-pain-at-night'] },
  },
  'bone-pain-rising': { raises: { signs: ['rising-pain'] }, misses: { signs: ['sore-spot'] } },
  'hip-bone': {
    raises: { signs: ['hurts-to-stand'], patient: { hip: true } },
    misses: { signs: ['hurts-to-stand'], patient: { hip: false } },
  },
  'cannot-walk': { raises: { signs: ['cannot-walk'] }, misses: { signs: ['hurts-to-stand'] } },
  'tingling-limb': {
    raises: { heard: ['compartment/urgent'] },
    misses: { heard: ['tight-in-runs/next-session'] },
  },
  'racing-heart': { raises: { signs: ['racing-heart'] }, misses: { heard: ['collapse/next-session'] } },
  'head-knock': { raises: { signs: ['head-knock'] }, misses: { signs: ['racing-heart'] } },
  'energy-and-bone': {
    raises: { heard: ['energy/next-session'], patient: { tissue: 'bone' } },
    misses: { heard: ['energy/next-session'], patient: { tissue: 'tendon' } },
  },
  'pain-far-above-usual': { raises: { worstPain: 5, usualPain: 2 }, misses: { worstPain: 4, usualPain: 2 } },
  'mood-or-eating': { raises: { heard: ['eating/urgent'] }, misses: { heard: ['eating/next-session'] } },
  'tight-in-runs': {
    raises: { heard: ['tight-in-runs/next-session'] },
    misses: { heard: ['worry/next-session'] },
  },
  'bone-pain-alone': {
    raises: { signs: ['bone-pain-at-night'] },
    misses: { signs: ['bone-pain-at-night', 'hurts-to-stand'] },
  },
  'sore-spot': { raises: { signs: ['sore-spot'] }, misses: { signs: ['sore-spot', 'bone-pain-at-night'] } },
  'swelling-not-sure': {
    raises: { moreSwollen: 'not sure', patient: { tissue: 'joint' } },
    misses: { moreSwollen: 'no', patient: { tissue: 'joint' } },
  },
  energy: { raises: { heard: ['energy/next-session'] }, misses: { heard: ['eating/next-session'] } },
  precaution: { raises: { heard: ['precaution/next-session'] }, misses: { heard: ['worry/next-session'] } },
  worry: { raises: { heard: ['worry/next-session'] }, misses: { heard: ['mood/next-session'] } },
  'low-mood': { raises: { heard: ['mood/next-session'] }, misses: { heard: ['worry/next-session'] } },
}

for (const flag of redFlags)
  test(`${flag.row} ${flag.finding} [${flag.source}]: ${flag.tier}, and not for the nearest miss`, () => {
    expect(isRaised(flag, morning(cases[flag.finding].raises))).toBe(true)
    expect(isRaised(flag, morning(cases[flag.finding].misses))).toBe(false)
  })

test('every row names a source that the evidence lists', () => {
  const sources = JSON.parse(readFileSync('shared/evidence/sources.json', 'utf8'))
  expect(redFlags.filter((flag) => !(flag.source in sources))).toEqual([])
})

test('every row from R1 to R15 is there, R7b among them', () => {
  const rows = new Set<string>(redFlags.map((flag) => flag.row))
  for (let n = 1; n <= 15; n += 1) expect(rows).toContain(`R${n}`)
  expect(rows).toContain('R7b')
})

test('the table reads from the worst to the least, so the first that holds decides', () => {
  const order = redFlags.map((flag) => ['emergency', 'urgent', 'next-session'].indexOf(flag.tier))
  expect(order).toEqual(order.toSorted((a, b) => a - b))
})

test('a pain of seven is far above anything usual, six without a past is not', () => {
  const flag = redFlags.find((one) => one.finding === 'pain-far-above-usual')
  expect(flag?.holds(morning({ worstPain: 7 }))).toBe(true)
  expect(flag?.holds(morning({ worstPain: 6 }))).toBe(false)
})

function morning({ signs = [], heard = [], patient, ...rest }: Remarkable): Morning {
  return {
    signs: new Set(signs),
    temperatureC: undefined,
    moreSwollen: 'no',
    worstPain: 0,
    usualPain: undefined,
    heard: new Set(heard),
    patient: { tissue: 'muscle', knee: false, hip: false, afterSurgery: false, ...patient },
    ...rest,
  }
}
