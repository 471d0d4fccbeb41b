import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { firstBreak } from '../../src/chart/chain.ts'
import type { Store } from '../../src/desk/ports.ts'
import { at, commitOf, ids, notice } from './commits.ts'
import type { Opened } from './contract.ts'

/** What every store owes the athlete whom the law lets be forgotten. */
export function erasesCharts(name: string, open: () => Promise<Opened>) {
  describe(`erasure in the ${name} store`, () => {
    let opened: Opened
    let store: Store
    beforeEach(async () => {
      opened = await open()
      store = opened.store
    })
    afterEach(() => opened.end())

    const tombstone = { id: 'erased/ada', kind: 'erased' as const, why: 'asked for' }

    test('a tombstone takes the place of the whole chart, also after a restart, and the chart can begin anew', async () => {
      await store.commit(commitOf('ada', 0, { entries: [{ id: 'ada/1' }, { id: 'ada/2' }] }))
      await store.commit(commitOf('bo', 0))
      expect(await store.erase('ada', tombstone, 2)).toEqual({ committed: true, length: 1 })
      expect(await store.read('ada')).toEqual([{ ...tombstone, before: 'start' }])
      store = await opened.reopen()
      expect(await store.read('ada')).toEqual([{ ...tombstone, before: 'start' }])
      expect(await store.read('bo')).toHaveLength(1)
      expect(await store.commit(commitOf('ada', 1))).toEqual({ committed: true, length: 2 })
      const entries = await store.read('ada')
      expect(firstBreak(entries)).toBeUndefined()
      expect(ids(await (await opened.reopen()).read('ada'))).toEqual(ids(entries))
    })

    test('who knew more of the chart than there is left reads what is left', async () => {
      await store.commit(commitOf('ada', 0, { entries: [{ id: 'ada/1' }, { id: 'ada/2' }] }))
      await store.erase('ada', tombstone, 2)
      expect(ids(await store.read('ada', 2))).toEqual(['erased/ada'])
    })

    test('a chart that has moved on is not erased', async () => {
      await store.commit(commitOf('ada', 0))
      expect(await store.erase('ada', tombstone, 3)).toEqual({ moved: true, length: 1 })
      expect(ids(await store.read('ada'))).toEqual(['ada/1'])
    })

    test('of those who write and one who erases at once, nobody is half heard', async () => {
      await store.commit(commitOf('ada', 0))
      const [written, erased] = await Promise.all([
        store.commit(commitOf('ada', 1)),
        store.erase('ada', tombstone, 1),
      ])
      expect(['committed' in written, 'committed' in erased].filter(Boolean)).toHaveLength(1)
      expect(firstBreak(await store.read('ada'))).toBeUndefined()
      expect(await store.commit(commitOf('ada', (await store.read('ada')).length))).toHaveProperty(
        'committed',
      )
    })

    test('nothing of the erased waits, is due or is open any more; others keep what they have', async () => {
      await store.commit(commitOf('ada', 0, { notices: [notice('prompt/ada/1')], dueAt: at(5) }))
      await store.commit(commitOf('bo', 0, { notices: [notice('prompt/bo/1', { to: { person: 'bo' } })] }))
      await store.erase('ada', tombstone, 1)
      for (const reopened of [false, true]) {
        const one = reopened ? await opened.reopen() : store
        expect(await one.waiting()).toBe(1)
        expect(await one.due(at(9), 10)).toEqual([])
        expect((await one.index()).find(({ subject }) => subject === 'ada')).toMatchObject({
          length: 1,
          open: false,
        })
      }
    })
  })
}
