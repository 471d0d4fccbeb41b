import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { type ClinicAtWork, fillMorning, openClinic } from './clinic.ts'

let clinic: ClinicAtWork
beforeEach(async () => {
  clinic = await openClinic(['mika'])
})
afterEach(() => clinic.close())

const chart = () => clinic.bot.desk.charts.read('mika')
type Store = ClinicAtWork['bot']['desk']['store']

/** The disk takes its time: so much passes while something is being written, or read. */
function slowly(method: 'commit', minutes: number): void {
  const { store } = clinic.bot.desk
  const before = store[method].bind(store) as (...of: unknown[]) => Promise<unknown>
  store[method] = (async (...of: unknown[]) => {
    const outcome = await before(...of)
    clinic.clock.pushBy({ minutes })
    store[method] = before as Store[typeof method]
    return outcome
  }) as Store[typeof method]
}

describe('the way back is gone', () => {
  test('a trigger that is older than three seconds: it is said, nothing is changed, and the next try opens', async () => {
    const { charts } = clinic.bot.desk
    const read = charts.read.bind(charts)
    charts.read = async (athlete) => {
      clinic.clock.pushBy({ seconds: 4 })
      charts.read = read
      return read(athlete)
    }
    const mika = clinic.as('mika')
    const length = (await read('mika')).entries.length
    await mika.command('/checkin')
    await clinic.settle()
    const opened = clinic.workspace.calls.filter((call) => call.method === 'views.open')
    expect(opened.map(({ outcome }) => outcome)).toEqual(['expired_trigger_id'])
    expect(mika.messages().at(-1)?.text).toContain('That took too long, and nothing was changed')
    await mika.command('/checkin')
    await clinic.settle()
    expect(mika.modal()?.title).toBe('Check-in')
    expect((await chart()).entries).toHaveLength(length)
  })

  test('a response address that has run out: whoever took a call gets it as a message, with the way to close it', async () => {
    await (await fillMorning(clinic, 'mika', { 'signs-always': ['chest-pain'] })).submit()
    await clinic.settle()
    const iben = clinic.as('iben')
    const call = iben.messages().at(-1)
    slowly('commit', 31)
    await iben.press(call ?? { home: true }, 'acknowledge')
    await clinic.settle()
    expect((await chart()).escalations[0]?.acknowledged?.author).toBe('iben')
    const answer = iben.messages().at(-1)
    expect(answer?.ts).not.toBe(call?.ts)
    expect(JSON.stringify(answer?.blocks)).toContain('Acknowledged by Iben Marlow')
    await iben.press(answer ?? { home: true }, 'open-close')
    await clinic.settle()
    expect(iben.modal()?.title).toBe('Close the call')
  })

  test('the same for words: "I did not run" is answered as a message', async () => {
    await (await fillMorning(clinic, 'mika')).submit()
    await clinic.settle()
    const mika = clinic.as('mika')
    const card = mika.messages().at(-1)
    slowly('commit', 31)
    await mika.press(card ?? { home: true }, 'skip-run')
    await clinic.settle()
    expect(mika.messages().at(-1)?.text).toContain('Written down: no run on 2026-03-16.')
    expect([...(await chart()).skipped]).toEqual(['2026-03-16'])
  })
})

describe('a view that is out of date', () => {
  test("yesterday's check-in, sent today: refused at the form, what was typed stays", async () => {
    const mika = await fillMorning(clinic, 'mika', { note: 'typed late at night' })
    clinic.clock.pushTo('2026-03-17T06:31:00.000Z')
    const sent = await mika.submit()
    expect(Object.values(sent.errors ?? {})).toEqual(["This form was for 2026-03-16. Please open today's."])
    expect(mika.modal()?.values.note).toBe('typed late at night')
    expect((await chart()).checkIns).toHaveLength(0)
  })

  test('two looks at Home at once: the one that comes late does not lay itself over the newer', async () => {
    const mika = clinic.as('mika')
    await mika.openHome()
    await (await fillMorning(clinic, 'mika')).submit()
    await clinic.settle()
    await Promise.all([mika.openHome(), mika.openHome()])
    await clinic.settle()
    expect(mika.home()?.lines.join('\n')).toContain('Warm-up')
    const outcomes = clinic.workspace.calls
      .filter((call) => call.method === 'views.publish')
      .map(({ outcome }) => outcome)
    expect(outcomes.filter((outcome) => outcome !== 'ok' && outcome !== 'hash_conflict')).toEqual([])
  })
})

describe('sent in twice', () => {
  test('a check-in by a double tap is one check-in, and both taps are told that it is saved', async () => {
    const mika = await fillMorning(clinic, 'mika')
    const both = await Promise.all([mika.submit(), mika.submit()])
    await clinic.settle()
    expect(both.map(({ errors }) => errors)).toEqual([undefined, undefined])
    expect((await chart()).checkIns).toHaveLength(1)
    expect((await chart()).prescriptions).toHaveLength(1)
  })

  test('so are a run and exercises, which have no day of their own to be told apart by', async () => {
    await (await fillMorning(clinic, 'mika')).submit()
    await clinic.settle()
    const mika = clinic.as('mika')
    await mika.command('/session')
    await clinic.settle()
    for (const field of ['painBefore', 'painDuring', 'painAfter', 'rpe']) mika.fill(field, '0')
    const runs = await Promise.all([mika.submit(), mika.submit()])
    expect(runs.map(({ errors }) => errors)).toEqual([undefined, undefined])
    await mika.openHome()
    await mika.press({ home: true }, 'open-exercise')
    await clinic.settle()
    mika.fill('asWritten', ['dead-bug'])
    await Promise.all([mika.submit(), mika.submit()])
    await clinic.settle()
    const { sessions, exercises } = await chart()
    expect([sessions.length, exercises.length]).toEqual([1, 1])
  })

  test('what was refused may be sent again, and the same exercises may be logged twice by two forms', async () => {
    const mika = clinic.as('mika')
    for (const _ of ['morning', 'evening']) {
      await mika.openHome()
      await mika.press({ home: true }, 'open-exercise')
      await clinic.settle()
      expect((await mika.submit()).errors?.asWritten).toBeDefined()
      mika.fill('asWritten', ['dead-bug'])
      expect((await mika.submit()).errors).toBeUndefined()
      await clinic.settle()
    }
    expect((await chart()).exercises).toHaveLength(2)
  })
})
