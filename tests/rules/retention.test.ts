import { beforeEach, describe, expect, test } from 'vitest'
import { clinicSubject } from '../../src/chart/roster.ts'
import { erase } from '../../src/desk/erasing.ts'
import { receive } from '../../src/desk/intake.ts'
import { eraseChart, keepUntil } from '../../src/rules/retention.ts'
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
      erased: { kind: 'erased', author: 'sunniva', why: asked.why, law: asked.law, entries: before },
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
    expect(await erase(work.desk, lead, 'mika', hasty)).toMatchObject({
      erased: { kind: 'erased' },
    })
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

  test('is final: a chart is erased once, and its athlete may be named and enrolled anew', async () => {
    const person = (await work.desk.team()).roster.people.get('mika')
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
    await work.submit('sunniva', { kind: 'person', person })
    const again = await receive(work.desk, { id: 'iben', roles: ['therapist'] }, more)
    expect('refused' in again ? again.words : 'enrolled').toBe('enrolled')
  })

  test('asks nothing of the erased athlete next morning', async () => {
    await erase(work.desk, lead, 'mika', asked)
    expect(await work.store.due('2026-03-16T23:00:00.000Z', 10)).not.toContain('mika')
  })
})

describe("erasure in the clinic's journal", () => {
  const journal = async () => JSON.stringify(await work.store.read(clinicSubject))

  test('takes the name, the account and the id out, and leaves who, when, why and which law', async () => {
    const before = (await work.store.read(clinicSubject)).length
    expect(await journal()).toContain('Mika Oddvar')
    expect(await erase(work.desk, lead, 'mika', { ...asked, why: 'Asked for.' })).toMatchObject({
      journal: 1,
    })
    const text = await journal()
    expect(text.toLowerCase()).not.toContain('mika')
    expect(await work.store.read(clinicSubject)).toHaveLength(before + 1)
    expect(await work.store.read(clinicSubject, before)).toMatchObject([
      { kind: 'erased', author: 'sunniva', why: 'Asked for.', law: asked.law, places: 1 },
    ])
    expect(text).toContain('Adaeze Quill')
  })

  test('is known at once at a desk that had read the journal before, and nobody else is forgotten', async () => {
    const people = (await work.desk.team()).roster.people
    await erase(work.desk, lead, 'mika', asked)
    const { roster } = await work.desk.team()
    expect(roster.people.has('mika')).toBe(false)
    expect([...roster.people.keys()]).toEqual([...people.keys()].filter((id) => id !== 'mika'))
    expect(roster.length).toBe((await work.store.read(clinicSubject)).length)
  })

  test('stops before somebody who also worked here, and says so', async () => {
    const mika = (await work.desk.team()).roster.people.get('mika')
    await work.submit('sunniva', {
      kind: 'person',
      person: { ...mika, roles: ['athlete', 'strength-coach'] },
    })
    await work.submit('sunniva', { kind: 'person', person: mika })
    expect(await erase(work.desk, lead, 'mika', asked)).toMatchObject({ journal: 'worked-here' })
    expect(await journal()).toContain('Mika Oddvar')
  })

  test('is taken up again where a crash had left the chart erased and the journal not', async () => {
    const chart = await work.desk.charts.read('mika')
    const tombstone = eraseChart(chart, asked, lead, await work.desk.team(), work.clock.now())
    if ('refused' in tombstone) throw new Error(tombstone.words)
    await work.store.erase('mika', tombstone, chart.entries.length)
    work.desk.charts.forget('mika')
    const therapist = { id: 'iben', roles: ['therapist'] } as const
    expect(await erase(work.desk, therapist, 'mika', asked)).toMatchObject({ refused: 'not-yours' })
    expect(await erase(work.desk, lead, 'mika', asked)).toMatchObject({ erased: tombstone, journal: 1 })
    expect(await journal()).not.toContain('Mika Oddvar')
    expect(await erase(work.desk, lead, 'mika', asked)).toMatchObject({ refused: 'no-chart' })
  })
})
