import { cp, readdir, readFile, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { type Store, StoreClosed } from '../../src/desk/ports.ts'
import { type Disk, disk } from '../../src/stores/disk.ts'
import { lowdbStore } from '../../src/stores/lowdb.ts'
import { at, commitOf, ids, notice } from './commits.ts'
import { keepsCharts } from './contract.ts'
import { erasesCharts } from './erasure.ts'
import { emptyFolder } from './folders.ts'

const open = async () => {
  const folder = await emptyFolder()
  let store = await lowdbStore(folder)
  return {
    store,
    async reopen() {
      await store.close()
      store = await lowdbStore(folder)
      return store
    },
    async end() {
      await store.close()
      await rm(folder, { recursive: true })
    },
  }
}

keepsCharts('lowdb', open)
erasesCharts('lowdb', open)

describe('what an erasure leaves on the disk', () => {
  const tombstone = { id: 'erased/ada', kind: 'erased' as const }
  const words = 'sore at night'

  async function folderWithAda(): Promise<string> {
    const folder = await emptyFolder()
    const store = await lowdbStore(folder)
    const entries = [{ id: 'check-in/ada/1', words }]
    await store.commit(
      commitOf('ada', 0, { entries, notices: [notice('check-in/ada/1/told', { surface: 'x/ada' })] }),
    )
    const [claimed] = await store.claim(at(1), at(3), 5)
    await store.settle(claimed?.notice.key ?? '', { sent: { channel: 'D1', ts: '1' }, at: at(2) })
    await store.commit(commitOf('bo', 0))
    await store.close()
    return folder
  }

  const allText = async (folder: string) => {
    const names = (await readdir(folder, { recursive: true })).filter((name) => /json/.test(name))
    return (await Promise.all(names.map((name) => readFile(join(folder, name), 'utf8')))).join('\n')
  }

  test('no file of the folder holds a word of it, nor the key of a message about it', async () => {
    const folder = await folderWithAda()
    expect(await allText(folder)).toContain(words)
    const store = await lowdbStore(folder)
    await store.erase('ada', tombstone, 1)
    expect(await allText(folder)).not.toContain(words)
    expect(await allText(folder)).not.toContain('check-in/ada')
    await store.close()
    expect(await allText(folder)).not.toContain('check-in/ada')
    await rm(folder, { recursive: true })
  })

  const closing = { id: 'erased', kind: 'erased' as const }
  const blanking = { places: new Map([[0, tombstone]]), closing, naming: 'ada' }
  const deeds = [
    {
      deed: 'a chart is erased',
      left: ['erased/ada'],
      does: (store: Store) => store.erase('ada', tombstone, 1),
    },
    {
      deed: 'an entry gives way',
      left: ['erased/ada', 'erased'],
      does: (store: Store) => store.blank('ada', blanking, 1),
    },
  ]
  for (const [when, { deed, left: after, does }] of deeds.flatMap((one) =>
    (['before', 'after'] as const).map((when) => [when, one] as const),
  ))
    test(`when ${deed}, a crash just ${when} the new file takes the name leaves one chart or the other, whole`, async () => {
      const folder = await folderWithAda()
      const crash = Object.assign(new Error('the power is gone'), { code: 'EIO' })
      const failing: Disk = {
        ...disk,
        async rename(from, to) {
          if (!String(to).endsWith('ada.jsonl')) return disk.rename(from, to)
          if (when === 'after') await disk.rename(from, to)
          throw crash
        },
      }
      const store = await lowdbStore(folder, { disk: failing })
      await expect(does(store)).rejects.toBeInstanceOf(StoreClosed)
      const left = await emptyFolder()
      // The machine stops here: what is on the disk is all there is.
      await cp(folder, left, { recursive: true, filter: (path) => !/lock|pid/.test(path) })
      await store.close()
      const again = await lowdbStore(left, { onDamage: 'refuse' })
      expect(ids(await again.read('ada'))).toEqual(when === 'before' ? ['check-in/ada/1'] : after)
      await again.close()
      for (const one of [folder, left]) await rm(one, { recursive: true })
    })
})
