import { expect, test } from 'vitest'
import { callReasons, holdReasons } from '../../src/rules/in-confidence.ts'
import { athlete, library, team } from './life.ts'

const is = athlete({ tissue: 'bone', ladder: 'tibial-stress-reaction-lbpp@1' })
is.morning('2026-03-02', { note: 'I want to kill myself' })
const [call] = is.chart().escalations
const { licensed } = library.clinic.support

test('words of self-harm open a call in confidence', () => {
  expect(call?.concern).toBe('support')
})

test.each(['ada', licensed])('%s reads why', (reader) => {
  if (!call) throw new Error('no call')
  expect(callReasons(call, is.chart(), reader, team)[0]?.finding).not.toBe('in-confidence')
})

test.each(['iben', 'ravi', 'sunniva', 'noor'])('%s reads that somebody knows, and no more', (reader) => {
  if (!call) throw new Error('no call')
  const [hold] = is.chart().holds
  expect(callReasons(call, is.chart(), reader, team)).toMatchObject([{ finding: 'in-confidence' }])
  if (hold) expect(holdReasons(hold, is.chart(), reader, team)).toMatchObject([{ finding: 'in-confidence' }])
})
