import { expect, test } from 'vitest'
import { benchScience } from '../../src/commands/bench-science.ts'

test('every piece of work is repeated and counted', () => {
  for (const { perSecond, microseconds } of benchScience(5))
    expect(perSecond * microseconds).toBeCloseTo(1e6, 3)
})
