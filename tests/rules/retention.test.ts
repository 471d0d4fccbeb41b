import { beforeEach, describe, expect, test } from 'vitest'
import { erase } from '../../src/desk/erasing.ts'
import { receive } from '../../src/desk/intake.ts'
import { keepUntil } from '../../src/rules/retention.ts'
import { type DeskAtWork, morning, openDeskAtWork } from '../desk/desk.ts'

let work: DeskAtWork
beforeEach(async () => {
  work = await openDeskAtWork(['mika', 'adaeze'])
})

const lead = { id: 'sunniva', roles: ['clinic-lead'] } as const
const asked = {
  why: 'Mika asked for it.',
  law: 'The data protection act of this place.',
  beforeItsTime: true,
}

describe('how long a record is kept', () => {
  test('ten years after its last page, in calendar years; an export does not lengthen it', async () => {
    work.clock.pushTo('2026-03-16T07:00:00.000Z')
    await work.submit('mika', morning('mika', '2026-03-16'))
    work.clock.pushTo('2026-05-01T07:00:00.000Z')
    await work.submit('iben', { kind: 'exported', athlete: 'mika', what: 'pdf', for: 'the surgeon' })
    expect(keepUntil(await work.desk.charts.read('mika'), await work.desk.team())).toBe('2036-03-16')
  })

  test('a chart that has no page has no end', async () =>
    expect(keepUntil(await work.desk.charts.read('nobody'), await work.desk.team())).toBeUndefined())
})

describe('erasure', () => {
  test('leaves who, when, why and which law, and nothing else', async () => {
    const before = (await work.desk.charts.read('mika')).entries.length
    const outcome = await erase(work.desk, lead, 'mika', asked)
    expect(outcome).toMatchObject({
      kind: 'erased',
      author: 'sunniva',
      why: asked.why,
      law: asked.law,
      entries: before,
    })
    const chart = await work.desk.charts.read('mika')
    expect(chart.entries.map((entry) => entry.kind)).toEqual(['erased'])
    expect(chart.enrolment).toBeUndefined()
    expect((await work.desk.charts.read('adaeze')).enrolment).toBeDefined()
  })

  test('is for the clinic lead alone', async () => {
    expect(await erase(work.desk, { id: 'iben', roles: ['therapist'] }, 'mika', asked)).toMatchObject({
      refused: 'not-yours',
    })
    expect(await erase(work.desk, { id: 'mika', roles: ['athlete'] }, 'mika', asked)).toMatchObject({
      refused: 'not-yours',
    })
  })

  test('before the time of keeping is over needs the confirmation that the law allows it', async () => {
    const hasty = { ...asked, beforeItsTime: false }
    expect(await erase(work.desk, lead, 'mika', hasty)).toMatchObject({ refused: 'kept-by-law' })
    work.clock.pushTo('2036-03-15T10:00:00.000Z')
    expect(await erase(work.desk, lead, 'mika', hasty)).toMatchObject({ refused: 'kept-by-law' })
    work.clock.pushTo('2036-03-16T10:00:00.000Z')
    expect(await erase(work.desk, lead, 'mika', hasty)).toMatchObject({ kind: 'erased' })
  })

  test('names its law, or does not happen', async () =>
    expect(await erase(work.desk, lead, 'mika', { ...asked, law: ' ' })).toMatchObject({ refused: 'no-law' }))

  test('waits for an open call and for an open request to amend', async () => {
    work.clock.pushTo('2026-03-16T07:00:00.000Z')
    const signs = { always: [], bone: ['bone-pain-at-night', 'sore-spot'] }
    await work.submit('mika', morning('mika', '2026-03-16', { signs }))
    expect(await erase(work.desk, lead, 'mika', asked)).toMatchObject({ refused: 'call-open' })
    await work.submit('adaeze', { kind: 'amendment-request', athlete: 'adaeze', words: 'Wrong side.' })
    expect(await erase(work.desk, lead, 'adaeze', asked)).toMatchObject({ refused: 'request-open' })
  })

  test('is final: a chart is erased once, and its athlete may be enrolled anew', async () => {
    await erase(work.desk, lead, 'mika', asked)
    expect(await erase(work.desk, lead, 'mika', asked)).toMatchObject({ refused: 'no-chart' })
    const enrol = {
      kind: 'enrolment',
      athlete: 'mika',
      timeZone: 'Europe/Lisbon',
      promptAt: '06:30',
      therapist: 'iben',
    }
    const more = { ...enrol, coaches: [], consentToCoach: false, precautions: [] }
    const again = await receive(work.desk, { id: 'iben', roles: ['therapist'] }, more)
    expect('refused' in again ? again.words : 'enrolled').toBe('enrolled')
  })

  test('asks nothing of the erased athlete next morning', async () => {
    await erase(work.desk, lead, 'mika', asked)
    expect(await work.store.due('2026-03-16T23:00:00.000Z', 10)).not.toContain('mika')
  })
})
