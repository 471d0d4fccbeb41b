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

  describe(`erasure of single entries in the ${name} store`, () => {
    let opened: Opened
    let store: Store
    beforeEach(async () => {
      opened = await open()
      store = opened.store
    })
    afterEach(() => opened.end())

    const grave = (id: string) => ({ id, kind: 'erased' as const, why: 'asked for' })
    const naming = 'mika'
    const blanking = { places: new Map([[1, grave('erased/2')]]), closing: grave('erased'), naming }
    const pages = [
      { id: 'person/1', name: 'Iben', odd: { 10: 'a', 9: ['b', null, 0.5] }, words: '"before":"start"}' },
      { id: 'person/2', name: 'Mika' },
      { id: 'person/3', name: 'Noor' },
    ]

    test('a tombstone stands in the place of the entry and one at the end; the others are as they were, also after a restart', async () => {
      await store.commit(commitOf('clinic', 0, { entries: pages, dueAt: at(5) }))
      await store.commit(commitOf('bo', 0))
      expect(await store.blank('clinic', blanking, 3)).toEqual({ committed: true, length: 4 })
      for (const reopened of [false, true]) {
        store = reopened ? await opened.reopen() : store
        const entries = await store.read('clinic')
        expect(entries.map(({ before: _, ...entry }) => entry)).toEqual([
          pages[0],
          grave('erased/2'),
          pages[2],
          grave('erased'),
        ])
        expect(firstBreak(entries)).toBeUndefined()
        expect(JSON.stringify(entries)).not.toContain('Mika')
        expect(await store.due(at(5), 10)).toContain('clinic')
      }
      expect(ids(await store.read('clinic', 3))).toEqual(['erased'])
      expect(await store.commit(commitOf('clinic', 4))).toEqual({ committed: true, length: 5 })
      store = await opened.reopen()
      expect(firstBreak(await store.read('clinic'))).toBeUndefined()
      expect(await store.index()).toHaveLength(2)
    })

    test('notices to or about the erased are gone; what others wait for, and where it was posted, stays', async () => {
      const to = { person: 'noor' }
      const [posted, waits] = ['list/1', 'list/2'].map((key) => notice(key, { to, surface: 'list' }))
      const about = notice('told/noor/1', { to, athlete: naming })
      const toThem = notice('welcome/1', { to: { person: naming }, surface: `home/${naming}` })
      const notices = [posted, waits, about, toThem].filter((one) => one !== undefined)
      await store.commit(commitOf('clinic', 0, { entries: pages, notices }))
      await store.claim(at(1), at(2), 1)
      await store.settle('list/1', { sent: { channel: 'C1', ts: '1.1' }, at: at(1) })
      await store.claim(at(2), at(3), 1)
      await store.settle('list/2', { retryAt: at(4), why: 'busy', unknown: true })
      await store.blank('clinic', blanking, 3)
      for (const reopened of [false, true]) {
        const one = reopened ? await opened.reopen() : store
        expect(await one.waiting()).toBe(1)
        expect(await one.receipt('list')).toEqual({ channel: 'C1', ts: '1.1' })
        expect(await one.nextTry()).toBe(at(4))
      }
      store = await opened.reopen()
      expect(await store.claim(at(4), at(9), 5)).toMatchObject([
        { notice: { key: 'list/2' }, tries: 1, unknown: true },
      ])
      await store.commit(commitOf('clinic', 4, { notices: [notice('list/1', { to })] }))
      expect(await store.waiting()).toBe(1)
    })

    test('a chart that has moved on keeps its entries; of those who write and one who erases at once, nobody is half heard', async () => {
      await store.commit(commitOf('clinic', 0, { entries: pages }))
      expect(await store.blank('clinic', blanking, 2)).toEqual({ moved: true, length: 3 })
      const [written, erased] = await Promise.all([
        store.commit(commitOf('clinic', 3)),
        store.blank('clinic', blanking, 3),
      ])
      expect(['committed' in written, 'committed' in erased].filter(Boolean)).toHaveLength(1)
      const entries = await store.read('clinic')
      expect(firstBreak(entries)).toBeUndefined()
      expect(entries).toHaveLength(4)
      expect(await store.commit(commitOf('clinic', 4))).toHaveProperty('committed')
    })
  })
}
