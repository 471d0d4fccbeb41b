import { beforeEach, describe, expect, test } from 'vitest'
import type { Notice } from '../../src/chart/notices.ts'
import type { Store } from '../../src/desk/ports.ts'
import { at, commitOf, notice } from './commits.ts'
import type { Opened } from './contract.ts'

/** What every store owes the outbox: the part of the contract about notices. */
export function handsOutNotices(now: () => Opened) {
  let opened: Opened
  let store: Store
  beforeEach(() => {
    opened = now()
    store = opened.store
  })

  describe('notices', () => {
    const queue = (...notices: Notice[]) => store.commit(commitOf('ada', 0, { entries: [], notices }))
    const claimed = async (minute: number, limit = 100) =>
      (await store.claim(at(minute), at(minute + 5), limit)).map((queued) => queued.notice.key)
    const sent = (ts: string, minute = 1) => ({ sent: { channel: 'D1', ts }, at: at(minute) })

    test('a notice is handed out once while it is held, and is gone once it is settled', async () => {
      await queue(notice('one'))
      expect(await store.waiting()).toBe(1)
      expect(await store.claim(at(0), at(5), 10)).toEqual([
        { notice: notice('one'), tries: 0, unknown: false },
      ])
      expect(await claimed(4)).toEqual([])
      await store.settle('one', sent('1'))
      expect(await store.waiting()).toBe(0)
      expect(await claimed(50)).toEqual([])
    })

    test('a notice whose key was queued before is left alone, waiting or settled, also after a restart', async () => {
      await queue(notice('one'), notice('one', { kind: 'call' }))
      await queue(notice('one'))
      expect(await store.waiting()).toBe(1)
      expect(await claimed(0)).toEqual(['one'])
      await store.settle('one', sent('1'))
      await queue(notice('one'))
      expect(await store.waiting()).toBe(0)
      store = await opened.reopen()
      await queue(notice('one'))
      expect(await store.waiting()).toBe(0)
    })

    test('one person hears in the order in which it happened, one thing at a time', async () => {
      await queue(notice('one'), notice('two'), notice('other', { to: { person: 'bo' } }))
      await store.commit(commitOf('bo', 0, { notices: [notice('three')] }))
      expect(await claimed(0)).toEqual(['one', 'other'])
      await store.settle('one', sent('1'))
      expect(await claimed(0)).toEqual(['two'])
      await store.settle('two', { missed: 'useless after 14:00', at: at(1) })
      store = await opened.reopen()
      expect(await claimed(10)).toEqual(['other', 'three'])
    })

    test('what is held back keeps its place in the row', async () => {
      await queue(notice('quiet', { notBefore: at(10) }), notice('after'))
      expect(await store.nextTry()).toBe(at(10))
      expect(await claimed(9)).toEqual([])
      expect(await claimed(10)).toEqual(['quiet'])
    })

    test('a call does not wait behind a prompt, and goes first', async () => {
      await queue(notice('prompt'), notice('call', { kind: 'call' }), notice('call-2', { kind: 'call' }))
      expect(await claimed(0, 1)).toEqual(['call'])
      expect(await claimed(0)).toEqual(['prompt'])
    })

    test('who rests is passed over and keeps the place; calls are handed out while everything else rests', async () => {
      await queue(notice('one'), notice('two'), notice('other', { to: { person: 'bo' } }))
      await store.commit(commitOf('bo', 0, { notices: [notice('call', { kind: 'call' })] }))
      const keysOf = (queued: readonly { notice: Notice }[]) => queued.map((one) => one.notice.key)
      expect(keysOf(await store.claim(at(0), at(5), 10, 'all but calls'))).toEqual(['call'])
      expect(await store.nextTry('all but calls')).toBe(at(5))
      expect(keysOf(await store.claim(at(0), at(5), 10, new Set(['ada'])))).toEqual(['other'])
      expect(await claimed(0)).toEqual(['one'])
      expect(await store.nextTry(new Set(['ada', 'ada!', 'bo']))).toBeNull()
    })

    test('no more are handed out than asked for', async () => {
      await queue(...['a', 'b', 'c'].map((person) => notice(person, { to: { person } })))
      expect(await claimed(0, 2)).toEqual(['a', 'b'])
      expect(await claimed(0, 2)).toEqual(['c'])
    })

    test('a notice whose holder fell silent is handed out again, as one that may have been sent', async () => {
      await queue(notice('one'))
      expect(await claimed(0)).toEqual(['one'])
      expect(await store.nextTry()).toBe(at(5))
      expect(await store.claim(at(5), at(9), 10)).toEqual([
        { notice: notice('one'), tries: 1, unknown: true },
      ])
    })

    test('a notice that was handed out before a restart may have been sent; the others were not', async () => {
      await queue(notice('one'), notice('two', { to: { person: 'bo' } }))
      expect(await claimed(0, 1)).toEqual(['one'])
      store = await opened.reopen()
      expect(await store.claim(at(30), at(35), 10)).toEqual([
        { notice: notice('one'), tries: 1, unknown: true },
        { notice: notice('two', { to: { person: 'bo' } }), tries: 0, unknown: false },
      ])
    })

    test('a failed try is repeated at its time, counted, also after a restart', async () => {
      await queue(notice('one'))
      await claimed(0)
      await store.settle('one', { retryAt: at(20), why: 'rate limited', unknown: false })
      expect(await claimed(19)).toEqual([])
      expect(await store.nextTry()).toBe(at(20))
      expect(await store.claim(at(20), at(25), 10)).toMatchObject([{ tries: 1, unknown: false }])
      await store.settle('one', { retryAt: at(40), why: 'no answer', unknown: true })
      store = await opened.reopen()
      expect(await claimed(39)).toEqual([])
      expect(await store.claim(at(40), at(45), 10)).toMatchObject([{ tries: 2, unknown: true }])
    })

    test('settling twice is settling once', async () => {
      await queue(notice('one'), notice('two'))
      await claimed(0)
      const retry = { retryAt: at(20), why: 'rate limited', unknown: false } as const
      await store.settle('one', retry)
      await store.settle('one', retry)
      expect(await store.claim(at(20), at(25), 10)).toMatchObject([{ tries: 1 }])
      await Promise.all([store.settle('one', sent('1')), store.settle('one', sent('1'))])
      await store.settle('one', { missed: 'late', at: at(3) })
      await store.settle('nobody', sent('1'))
      expect(await claimed(30)).toEqual(['two'])
    })

    test('a surface is where it was posted last, also after a restart', async () => {
      const surface = 'morning/ada/2026-03-02'
      expect(await store.receipt(surface)).toBeUndefined()
      await queue(
        notice('one', { surface }),
        notice('two', { surface }),
        notice('three', { surface }),
        notice('four'),
      )
      for (const [key, outcome] of [
        ['one', sent('1')],
        ['two', sent('2')],
        ['three', { missed: 'late', at: at(3) }],
        ['four', sent('4')],
      ] as const) {
        await claimed(0)
        await store.settle(key, outcome)
      }
      expect(await store.receipt(surface)).toEqual({ channel: 'D1', ts: '2' })
      store = await opened.reopen()
      expect(await store.receipt(surface)).toEqual({ channel: 'D1', ts: '2' })
    })

    test('the next try is the earliest of all who wait, and there is none when nobody waits', async () => {
      expect(await store.nextTry()).toBeNull()
      await queue(
        notice('one', { notBefore: at(30) }),
        notice('two', { to: { person: 'bo' }, notBefore: at(20) }),
      )
      expect(await store.nextTry()).toBe(at(20))
      await store.commit(commitOf('ada', 0, { notices: [notice('now', { to: { place: 'coaches' } })] }))
      expect((await store.nextTry()) ?? '').toBe(at(0))
    })

    test('ten who claim at once share the notices, none of them twice', async () => {
      const everyone = Array.from({ length: 200 }, (_, i) => notice(`n${i}`, { to: { person: `p${i}` } }))
      await queue(...everyone)
      const hands = await Promise.all(Array.from({ length: 10 }, () => store.claim(at(0), at(5), 30)))
      const keys = hands.flat().map((queued) => queued.notice.key)
      expect(keys).toHaveLength(200)
      expect(new Set(keys).size).toBe(200)
    })
  })
}
