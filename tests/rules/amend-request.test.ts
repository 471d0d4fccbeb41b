import { beforeEach, describe, expect, test } from 'vitest'
import { receive } from '../../src/desk/intake.ts'
import { amendRequests, answerBy } from '../../src/rules/amend-request.ts'
import { type DeskAtWork, openDeskAtWork } from '../desk/desk.ts'

let work: DeskAtWork
beforeEach(async () => {
  work = await openDeskAtWork()
})

const request = 'amendment-request/mika/1'
const roles = { mika: 'athlete', iben: 'therapist', noor: 'coach', sunniva: 'clinic-lead' } as const

/** `done`, or the refusal. */
async function asks(by: keyof typeof roles, submission: object): Promise<string> {
  const outcome = await receive(work.desk, { id: by, roles: [roles[by]] }, { athlete: 'mika', ...submission })
  return 'refused' in outcome ? outcome.refused : 'done'
}
const ask = (entry?: string) =>
  asks('mika', { kind: 'amendment-request', ...(entry ? { entry } : {}), words: 'Wrong.' })
const answer = (over: object) =>
  asks('iben', { kind: 'amendment-request-answered', request, words: 'So.', ...over })
const extend = () =>
  asks('iben', { kind: 'amendment-request-extended', request, words: 'The surgeon is away.' })
async function state() {
  const chart = await work.desk.charts.read('mika')
  const [first] = amendRequests(chart)
  if (!first) throw new Error('no request')
  return { ...first, by: answerBy(first, chart, await work.desk.team()), chart }
}

describe('a request to amend', () => {
  test('is answered within 60 days, and the day is shown [cfr-164-526]', async () => {
    expect(await ask()).toBe('done')
    expect((await state()).by).toBe('2026-05-14')
  })

  test('is put off once, by 30 days, in writing and in time [cfr-164-526]', async () => {
    await ask()
    expect(await extend()).toBe('done')
    expect((await state()).by).toBe('2026-06-13')
    expect(await extend()).toBe('extended')
  })

  test('can still be put off on its last day, and not on the day after', async () => {
    await ask()
    work.clock.pushTo('2026-05-15T10:00:00.000Z')
    expect(await extend()).toBe('too-late')
    work = await openDeskAtWork()
    await ask()
    work.clock.pushTo('2026-05-14T10:00:00.000Z')
    expect(await extend()).toBe('done')
  })

  test('is accepted by an amendment: the entry is struck, the answer stands, both or neither', async () => {
    await ask('clearance/mika/1')
    expect(await answer({ outcome: 'struck' })).toBe('done')
    const { chart, answered } = await state()
    expect(answered?.outcome).toBe('struck')
    expect(chart.clearance).toBeUndefined()
    expect(
      chart.entries.some((entry) => entry.kind === 'amendment' && entry.strikes === 'clearance/mika/1'),
    ).toBe(true)
  })

  test('about something that is missing cannot be accepted by striking', async () => {
    await ask()
    expect(await answer({ outcome: 'struck' })).toBe('nothing-to-strike')
    expect((await state()).answered).toBeUndefined()
    expect(await answer({ outcome: 'appended' })).toBe('done')
  })

  test('is denied only with a ground and a written reason, which stay in the record', async () => {
    await ask()
    expect(await answer({ outcome: 'denied' })).toBe('no-ground')
    expect(await answer({ outcome: 'denied', ground: 'accurate and complete', words: '' })).toBe('malformed')
    expect(await answer({ outcome: 'denied', ground: 'accurate and complete' })).toBe('done')
    expect((await state()).answered).toMatchObject({
      ground: 'accurate and complete',
      words: 'So.',
      author: 'iben',
    })
    expect(await answer({ outcome: 'appended' })).toBe('answered')
  })

  test('that was denied can be disagreed with, once, by the athlete alone', async () => {
    await ask()
    const disagree = { kind: 'disagreement-stated', request, words: 'I still say so.' }
    expect(await asks('mika', disagree)).toBe('not-denied')
    await answer({ outcome: 'denied', ground: 'accurate and complete' })
    expect(await asks('iben', disagree)).toBe('not-yours')
    expect(await asks('mika', disagree)).toBe('done')
    expect(await asks('mika', disagree)).toBe('already-recorded')
  })

  test('reaches the treating therapist, and the answer reaches the athlete', async () => {
    await ask()
    await answer({ outcome: 'appended' })
    const queued = await work.store.claim('2026-03-16T12:00:00.000Z', '2026-03-16T12:02:00.000Z', 50)
    const heard = queued.map(({ notice }) => [
      notice.kind,
      notice.about,
      'person' in notice.to ? notice.to.person : '',
    ])
    expect(heard).toContainEqual(['note', request, 'iben'])
  })

  test('is for the athlete and the therapist; never for the coach', async () => {
    expect(await asks('noor', { kind: 'amendment-request', words: 'Wrong.' })).toBe('not-yours')
    expect(await asks('iben', { kind: 'amendment-request', words: 'Said on the phone.' })).toBe('done')
    expect(
      await asks('mika', { kind: 'amendment-request-answered', request, outcome: 'appended', words: 'Yes.' }),
    ).toBe('not-yours')
  })

  test('is never struck out itself', async () => {
    await ask()
    expect(await asks('iben', { kind: 'amendment', strikes: request, words: 'Tidy.' })).toBe('not-strikable')
  })
})
