import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { clearedAnswer } from '../../src/slack/cleared.ts'
import { type ClinicAtWork, fillMorning, openClinic } from './clinic.ts'

let clinic: ClinicAtWork
beforeAll(async () => {
  clinic = await openClinic(['mika', 'adaeze'])
  await (await fillMorning(clinic, 'mika')).submit()
  await clinic.settle()
})
afterAll(() => clinic.close())

const asked = async (said: string) => (await clinic.as('noor').command('/cleared', said)).reply?.text ?? ''

describe('a coach asks who is cleared', () => {
  test('everybody', async () => {
    expect((await asked('')).split('\n')).toHaveLength(2)
  })
  test('by a name or a part of it', async () => {
    const words = await asked('ODDVAR')
    expect(words).toContain('Mika Oddvar')
    expect(words).not.toContain('Adaeze')
  })
  test('by today, and by the state on the way', async () => {
    expect(await asked('waiting')).toMatch(/^\*Adaeze Quill\*: waiting for the check-in\.[^\n]*$/)
    expect(await asked('run')).toContain('Mika Oddvar')
    expect((await asked('unloaded running')).split('\n')).toHaveLength(2)
  })
  test('for somebody who is not there: it says so, and repeats nothing that could mention anybody', async () => {
    const words = await asked('<!channel> pain')
    expect(words).toContain('Nobody of those who share with you')
    expect(words).not.toContain('<!channel>')
  })
  test('a squad of two hundred is cut short, and the answer says how to see the rest', () => {
    const line = { today: 'run', state: 'unloaded running', ceiling: undefined, until: '2026-04-12' } as const
    const lines = Array.from({ length: 200 }, (_, n) => ({ ...line, athlete: `a${n}`, name: `Athlete ${n}` }))
    const words = clearedAnswer(lines, '', '/cleared')
    expect(words).toContain('and 175 more: say a name or a state after /cleared')
    expect(words.length).toBeLessThan(4000)
  })
})
