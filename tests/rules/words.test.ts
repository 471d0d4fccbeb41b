import { readdirSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { hear } from '../../src/rules/words.ts'
import { Labelled, measure } from '../../src/rules/words-measure.ts'
import { words } from './clinic-of-tests.ts'

const sentencesOf = (file: string) =>
  readFileSync(`tests/words/${file}`, 'utf8')
    .trim()
    .split('\n')
    .map((line) => Labelled.parse(JSON.parse(line)))
const sentences = readdirSync('tests/words')
  .filter((name) => name.endsWith('.jsonl'))
  .flatMap(sentencesOf)
const topics = (text: string) => hear(text, words).map(({ topic, tier }) => `${topic}: ${tier}`)
const worst = (text: string) => hear(text, words)[0]?.tier

test('there are sentences enough of every kind to measure by', () => {
  const count = (expected: string) => sentences.filter(({ expect: one }) => one === expected).length
  expect(sentences.length).toBeGreaterThanOrEqual(300)
  expect(count('emergency')).toBeGreaterThanOrEqual(80)
  expect(count('urgent')).toBeGreaterThanOrEqual(70)
  expect(count('next')).toBeGreaterThanOrEqual(40)
  expect(count('none')).toBeGreaterThanOrEqual(110)
})

test('every emergency among the invented sentences is heard as one', () => {
  const missed = measure(sentences, words).wrong.filter(({ sentence }) => sentence.expect === 'emergency')
  expect(missed.map(({ sentence }) => sentence.text)).toEqual([])
})

test('it does not flood: of what means nothing, no more than one sentence in fifty rings', () => {
  const nothing = sentences.filter(({ expect: one }) => one === 'none')
  const rung = nothing.filter(({ text }) => ['emergency', 'urgent'].includes(worst(text) ?? ''))
  expect(rung.length / nothing.length).toBeLessThanOrEqual(0.02)
})

test.each([
  ['no chest pain', undefined],
  ['no swelling, chest pain or fainting', undefined],
  ['no swelling. Chest pain though', 'emergency'],
  ['no swelling but chest pain', 'emergency'],
  ['no run today, chest pain since morning', 'emergency'],
  ['not sure why, but I fainted', 'emergency'],
  ['I never fainted', undefined],
  ['never been so short of breath', 'emergency'],
  ['chest pain: no', undefined],
  ['chest pain, no idea why', 'emergency'],
  ['I cannot breathe', 'emergency'],
  ['not able to breathe', 'emergency'],
])('denials are heard on the careful side: %s', (text, tier) => {
  expect(worst(text)).toBe(tier)
})

test('somebody else is not the writer, unless the writer is in it too', () => {
  expect(worst('my brother has a fever')).toBeUndefined()
  expect(worst('my brother says I passed out')).toBe('emergency')
  expect(worst('my mum and I both have a fever')).toBe('urgent')
})

test('whoever is there when it happens, or writes for the athlete, does not silence it', () => {
  expect(worst('passed out in front of my brother')).toBe('emergency')
  expect(worst('feels as if somebody sat on the chest')).toBe('emergency')
  expect(worst('this is her mother, daughter fainted twice')).toBe('emergency')
  expect(worst('my brother fainted, I was fine')).toBeUndefined()
  expect(worst('in the film everyone had seizures')).toBeUndefined()
})

test('words of one sign stand near each other, however long the note is', () => {
  const between = 'and then we went on with the day '.repeat(5)
  expect(worst('right hand has no power, words come out wrong')).toBe('emergency')
  expect(worst(`the chest of drawers came ${between} and the stairs were heavy`)).toBeUndefined()
})

test('who only keeps the writer company does not silence him', () => {
  expect(worst('playing lego with the kids and passed out')).toBe('emergency')
  expect(worst('the kids passed out')).toBeUndefined()
})

test.each([
  ['no thoughts of hurting myself', undefined],
  ['no thoughts of hurting myself until last night', 'emergency'],
  ['looked up how many tablets it takes. Not going to do it, just looked', 'emergency'],
  ["I'd rather die than wear those shorts", undefined],
  ["I'd rather die than go on like this", 'emergency'],
  ['the gazebo collapsed', undefined],
  ['I collapsed by the gazebo', 'emergency'],
  ['I had a concussion in 2017', undefined],
  ['I had a concussion in 2017 and another one yesterday', 'urgent'],
])('a saying or an old story is silent, and what stands beside it still rings: %s', (text, tier) => {
  expect(worst(text)).toBe(tier)
})

test('"apart" parts a wound, and only "apart from" begins a new thought', () => {
  expect(worst('stitches have come apart')).toBe('urgent')
  expect(worst('no pain apart from the chest')).toBe('emergency')
})

test('what cannot be done is a sign in every English', () => {
  expect(worst('I no fit breathe')).toBe('emergency')
  expect(worst('knee no gree bend since yesterday')).toBe('urgent')
})

test('one slip of the finger does not hide an alarm, and real words are not slips', () => {
  expect(worst('chst pain')).toBe('emergency')
  expect(worst('I fianted')).toBe('emergency')
  expect(worst('chess pains me')).toBeUndefined()
})

test('38.0 in words is a fever, 37.9 is none, and so it is in Fahrenheit', () => {
  expect(worst('temperature was 38.0')).toBe('urgent')
  expect(worst('temperature was 37.9')).toBeUndefined()
  expect(worst('temperature was 100.4')).toBe('urgent')
  expect(worst('temperature was 100.3')).toBeUndefined()
})

test('a text may touch more than one topic, the worst first', () => {
  expect(topics('calf is swollen and I want to kill myself').slice(0, 2)).toEqual([
    'self-harm: emergency',
    'calf: urgent',
  ])
})

test('the sentence is kept for the human who is called', () => {
  expect(hear('All fine. I passed out though.', words)[0]?.sentence).toBe('All fine. I passed out though.')
})
