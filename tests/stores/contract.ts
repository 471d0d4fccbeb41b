import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { firstBreak } from '../../src/chart/chain.ts'
import type { Store } from '../../src/desk/ports.ts'
import { at, commitOf, ids, notice } from './commits.ts'
import { handsOutNotices } from './contract-notices.ts'

/** A store under test. `reopen` closes it and opens what it kept. */
export type Opened = {
  readonly store: Store
  readonly reopen: () => Promise<Store>
  readonly end: () => Promise<void>
}

/** What every store owes the desk. */
export function keepsCharts(name: string, open: () => Promise<Opened>) {
  describe(`the ${name} store`, () => {
    let opened: Opened
    let store: Store
    beforeEach(async () => {
      opened = await open()
      store = opened.store
    })
    afterEach(() => opened.end())

    describe('charts', () => {
      test('a chart that nobody has written in is empty', async () => {
        expect(await store.read('ada')).toEqual([])
        expect(await store.index()).toEqual([])
      })

      test('entries are read in the order in which they were committed, from any position', async () => {
        expect(await store.commit(commitOf('ada', 0))).toEqual({ committed: true, length: 1 })
        const two = [{ id: 'ada/2' }, { id: 'ada/3' }]
        expect(await store.commit(commitOf('ada', 1, { entries: two }))).toEqual({
          committed: true,
          length: 3,
        })
        expect(ids(await store.read('ada'))).toEqual(['ada/1', 'ada/2', 'ada/3'])
        expect(ids(await store.read('ada', 2))).toEqual(['ada/3'])
        expect(await store.read('ada', 3)).toEqual([])
      })

      test('an entry comes back as it went in, whatever was typed', async () => {
        const entry = {
          id: 'ada/1',
          words: 'sore "again"\n\\ \u2028 \u0000 \ud83e\udda9 <@U1> ünï',
          nested: { list: [1, -0.5, null, true, { 10: 'a', 9: 'b' }] },
        }
        await store.commit(commitOf('ada', 0, { entries: [entry] }))
        expect(await store.read('ada')).toEqual([{ ...entry, before: 'start' }])
        expect(await (await opened.reopen()).read('ada')).toEqual([{ ...entry, before: 'start' }])
      })

      test('what the caller changes afterwards is not changed in the chart', async () => {
        const entry = { id: 'ada/1', worstPain: 2 }
        await store.commit(commitOf('ada', 0, { entries: [entry] }))
        entry.worstPain = 9
        expect(await store.read('ada')).toMatchObject([{ worstPain: 2 }])
      })

      test('every entry carries the hash of the one before', async () => {
        for (let length = 0; length < 5; length++) await store.commit(commitOf('ada', length))
        const entries = await store.read('ada')
        expect(firstBreak(entries)).toBeUndefined()
        expect(firstBreak(entries.with(2, { ...entries[2], worstPain: 9 } as never))).toBe(3)
      })

      test('a decision on a chart that has moved on is refused, and nothing of it is kept', async () => {
        await store.commit(commitOf('ada', 0))
        const late = commitOf('ada', 0, {
          entries: [{ id: 'late' }],
          notices: [notice('late')],
          dueAt: at(5),
        })
        expect(await store.commit(late)).toEqual({ moved: true, length: 1 })
        expect(await store.commit(commitOf('ada', 7))).toEqual({ moved: true, length: 1 })
        expect(ids(await store.read('ada'))).toEqual(['ada/1'])
        expect(await store.waiting()).toBe(0)
        expect(await store.due(at(9), 9)).toEqual([])
      })

      test('of a hundred who decide on the same chart at once, one is heard', async () => {
        const answers = await Promise.all(Array.from({ length: 100 }, () => store.commit(commitOf('ada', 0))))
        expect(answers.filter((answer) => 'committed' in answer)).toEqual([{ committed: true, length: 1 }])
        expect(answers.filter((answer) => 'moved' in answer)).toHaveLength(99)
        expect(await store.read('ada')).toHaveLength(1)
      })

      test('a hundred who read again and decide again are all heard in the end, each once', async () => {
        const insist = async (id: string) => {
          for (;;) {
            const { length } = await store.read('ada')
            if ('committed' in (await store.commit(commitOf('ada', length, { entries: [{ id }] })))) return
          }
        }
        const wanted = Array.from({ length: 100 }, (_, i) => `n${i}`)
        await Promise.all(wanted.map(insist))
        const entries = await store.read('ada')
        expect(ids(entries).toSorted()).toEqual(wanted.toSorted())
        expect(firstBreak(entries)).toBeUndefined()
      })

      test('a hundred charts at once do not meet', async () => {
        const subjects = Array.from({ length: 100 }, (_, i) => `athlete-${i}`)
        await Promise.all(subjects.map((subject) => store.commit(commitOf(subject, 0))))
        for (const subject of subjects) expect(ids(await store.read(subject))).toEqual([`${subject}/1`])
      })

      test('a name that could lead out of the folder is no subject', async () => {
        for (const subject of ['../ada', 'a/b', '', '.ada', 'a\u0000', 'a'.repeat(121)]) {
          await expect(store.commit(commitOf(subject, 0))).rejects.toThrow(TypeError)
          await expect(store.read(subject)).rejects.toThrow(TypeError)
        }
      })

      test('all is there after a restart, and the chart goes on from there', async () => {
        await store.commit(commitOf('ada', 0, { dueAt: at(30) }))
        await store.commit(commitOf('bo', 0, { open: false }))
        const before = await store.index()
        store = await opened.reopen()
        expect(await store.index()).toEqual(before)
        await store.commit(commitOf('ada', 1))
        const entries = await store.read('ada')
        expect(ids(entries)).toEqual(['ada/1', 'ada/2'])
        expect(firstBreak(entries)).toBeUndefined()
      })

      test('a closed store says so', async () => {
        await store.close()
        await expect(store.commit(commitOf('ada', 0))).rejects.toThrow('closed')
        await expect(store.read('ada')).rejects.toThrow('closed')
        await expect(store.waiting()).rejects.toThrow('closed')
      })
    })

    describe('what is due', () => {
      test('the index tells length, last hash, open and due of every chart', async () => {
        await store.commit(commitOf('ada', 0, { dueAt: at(30) }))
        await store.commit(commitOf('ada', 1, { open: false, dueAt: null }))
        const [row] = await store.index()
        expect(row).toMatchObject({ subject: 'ada', length: 2, open: false, dueAt: null })
        const [, second] = await store.read('ada')
        await store.commit(commitOf('ada', 2))
        const [, , third] = await store.read('ada')
        expect(third?.before).toBe(row?.last)
        expect(second?.before).not.toBe(row?.last)
      })

      test('a subject is due from its minute on, the earliest first, and no more than asked for', async () => {
        await store.commit(commitOf('late', 0, { dueAt: at(30) }))
        await store.commit(commitOf('early', 0, { dueAt: at(10) }))
        await store.commit(commitOf('never', 0, { dueAt: null }))
        expect(await store.due(at(9), 10)).toEqual([])
        expect(await store.due(at(10), 10)).toEqual(['early'])
        expect(await store.due(at(30), 10)).toEqual(['early', 'late'])
        expect(await store.due(at(30), 1)).toEqual(['early'])
      })

      test('a look that wrote nothing moves the next one, unless the chart has moved on', async () => {
        await store.commit(commitOf('ada', 0, { dueAt: at(10) }))
        await store.schedule('ada', at(20), 1)
        expect(await store.due(at(19), 10)).toEqual([])
        expect(await store.due(at(20), 10)).toEqual(['ada'])
        await store.commit(commitOf('ada', 1, { dueAt: at(25) }))
        await store.schedule('ada', null, 1)
        expect(await store.due(at(25), 10)).toEqual(['ada'])
        await store.schedule('ada', null, 2)
        expect(await store.due(at(59), 10)).toEqual([])
      })

      test('a decision without entries or notices still says when to look again', async () => {
        await store.commit(commitOf('ada', 0, { entries: [], dueAt: at(10) }))
        expect(await store.due(at(10), 10)).toEqual(['ada'])
        expect(await store.read('ada')).toEqual([])
      })
    })

    handsOutNotices(() => opened)
  })
}
