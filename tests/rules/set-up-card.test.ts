import { expect, test } from 'vitest'
import { SetUpCard } from '../../src/chart/set-up-card.ts'
import { cardFor } from '../../src/rules/set-up-card.ts'
import { athlete, library } from './life.ts'

const card = library.setUpCard

test('in the LBPP treadmill: shorts, frame, seal, calibration, walking first, and carrying less weight first on pain', () => {
  const run = athlete({
    tissue: 'bone',
    ladder: 'tibial-stress-reaction-lbpp',
    state: 'unloaded running',
  }).morning('2026-03-02')
  const lines = run && cardFor(card, run, 'bone', 'M')
  expect(lines?.before[0]).toContain('Yours: M.')
  expect(lines?.before).toHaveLength(1 + card.before.length)
  expect(lines?.start).toEqual(card.start)
  expect(lines?.onPain[0]).toBe(
    'Pain above 0 of 10: carry less weight first, 10 points less, never below 20 %.',
  )
  expect(lines?.onPain[1]).toBe('Still there after a minute: slow down by 10 %.')
  expect(lines?.stopWhen).toEqual([...card.stopWhen.always, ...card.stopWhen.bone])
})

test('on the ground there is nothing to set up and no weight to take off', () => {
  const run = athlete({ tissue: 'joint', ladder: 'knee-eight-levels-treadmill' }).morning('2026-03-02')
  const lines = run && cardFor(card, run, 'joint')
  expect(lines).toMatchObject({ before: [], start: [] })
  expect(lines?.onPain[0]).toBe('Pain above 2 of 10: walk; when it is gone, go on 10 % slower.')
  expect(lines?.stopWhen).toHaveLength(1 + card.stopWhen.joint.length)
})

test('each tissue stops by its own rule, with its own number', () => {
  const run = athlete({
    tissue: 'tendon',
    ladder: 'tendon-pain-monitored',
    state: 'unloaded running',
  }).morning('2026-03-02')
  expect(run && cardFor(card, run, 'tendon')?.stopWhen.at(-1)).toContain('above 5')
  expect(run && cardFor(card, run, 'tendon')?.before[0]).toBe(card.shorts.words)
})

test('no card for a day without a run; an unknown word in braces stays as it is', () => {
  expect(cardFor(card, {}, 'bone')).toBeUndefined()
  const run = athlete({
    tissue: 'bone',
    ladder: 'tibial-stress-reaction-lbpp',
    state: 'unloaded running',
  }).morning('2026-03-02')
  const odd = { ...card, onPain: { ...card.onPain, inTreadmill: ['{nobody}'] } }
  expect(run && cardFor(odd, run, 'bone')?.onPain).toEqual(['{nobody}'])
})

test('the card says of itself that it is common practice', () => {
  expect(card.label).toBe('common-practice')
  expect(SetUpCard.safeParse({ ...card, label: 'read' }).success).toBe(false)
})
