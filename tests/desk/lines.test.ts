import { beforeEach, describe, expect, test } from 'vitest'
import { clearedLines } from '../../src/desk/desk.ts'
import { type DeskAtWork, morning, openDeskAtWork } from './desk.ts'

let clinic: DeskAtWork
/** Charts that the list had to read, in order. */
let read: string[]

beforeEach(async () => {
  clinic = await openDeskAtWork(['mika', 'adaeze', 'joran'])
  clinic.clock.pushTo('2026-03-16T06:30:00.000Z')
  read = []
  const { store } = clinic
  const ask = store.read.bind(store)
  Object.assign(store, {
    read: (subject: string, from?: number) => {
      if (subject !== 'clinic') read.push(subject)
      return ask(subject, from)
    },
  })
})

const list = async () => {
  read = []
  return clearedLines(clinic.desk, await clinic.desk.team())
}
const todayOf = async () => Object.fromEntries((await list()).map(({ athlete, today }) => [athlete, today]))

describe("the coaches' list is made anew from what has changed", () => {
  test('the second list of a morning reads the charts that were written to in between, and no others', async () => {
    const waiting = 'waiting for the check-in'
    expect(await todayOf()).toEqual({ mika: waiting, adaeze: waiting, joran: waiting })
    expect(new Set(read)).toEqual(new Set(['mika', 'adaeze', 'joran']))
    await clinic.submit('mika', morning('mika', '2026-03-16'))
    expect(await todayOf()).toEqual({ mika: 'run', adaeze: waiting, joran: waiting })
    expect(new Set(read)).toEqual(new Set(['mika']))
    await list()
    expect(read).toEqual([])
  })

  test("each line begins anew at the athlete's own midnight", async () => {
    await clinic.submit('mika', morning('mika', '2026-03-16'))
    expect((await todayOf()).mika).toBe('run')
    clinic.clock.pushTo('2026-03-16T23:59:00.000Z')
    expect((await todayOf()).mika).toBe('run')
    clinic.clock.pushTo('2026-03-17T00:00:00.000Z')
    expect((await todayOf()).mika).toBe('waiting for the check-in')
  })

  test('a name that the clinic lead corrects stands in the next list', async () => {
    await list()
    const person = (await clinic.desk.team()).roster.people.get('mika')
    await clinic.submit('sunniva', { kind: 'person', person: { ...person, name: 'Mika Corrected' } })
    expect((await list()).map(({ name }) => name)).toContain('Mika Corrected')
  })

  test('a chart that was erased leaves no line', async () => {
    await list()
    const { length } = (await clinic.store.index()).find(({ subject }) => subject === 'mika') ?? { length: 0 }
    const tombstone = { id: 'erased/mika', kind: 'erased' as const }
    await clinic.store.erase('mika', tombstone, length)
    clinic.desk.charts.forget('mika')
    expect((await list()).map(({ athlete }) => athlete)).toEqual(['adaeze', 'joran'])
  })
})
