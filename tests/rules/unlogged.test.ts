import { expect, test } from 'vitest'
import { unloggedDays } from '../../src/rules/unlogged.ts'
import { athlete } from './life.ts'

const bone = { tissue: 'bone', ladder: 'tibial-stress-reaction-lbpp' } as const

test('a prescribed run waits until it is logged or said not to be run, the newest first', () => {
  const ada = athlete(bone)
  ada.morning('2026-03-02')
  expect(unloggedDays(ada.chart(), '2026-03-02')).toEqual(['2026-03-02'])
  expect(unloggedDays(ada.chart(), '2026-03-01')).toEqual([])
  ada.run('2026-03-02')
  expect(unloggedDays(ada.chart(), '2026-03-02')).toEqual([])
  ada.morning('2026-03-03')
  expect(unloggedDays(ada.chart(), '2026-03-03'), 'an exercise day asks for no run').toEqual([])
  ada.morning('2026-03-04')
  expect(unloggedDays(ada.chart(), '2026-03-05')).toEqual(['2026-03-04'])
  ada.handIn('ada', 'athlete', '2026-03-04T20:00:00.000Z', { kind: 'run-skipped', day: '2026-03-04' })
  expect(unloggedDays(ada.chart(), '2026-03-05')).toEqual([])
})
