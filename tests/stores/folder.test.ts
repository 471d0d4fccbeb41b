import { mkdirSync, readdirSync, statSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { takeFolder } from '../../src/stores/folder.ts'
import { emptyFolder } from './folders.ts'

test('a folder that was named by mistake is left as it is: not made private, nothing put into it', async () => {
  const folder = join(await emptyFolder(), 'shared-by-all')
  mkdirSync(folder, { mode: 0o755 })
  writeFileSync(join(folder, 'letter.txt'), 'of somebody else')
  expect(() => takeFolder(folder)).toThrow('holds other things and no charts')
  expect(statSync(folder).mode & 0o777).toBe(0o755)
  expect(readdirSync(folder)).toEqual(['letter.txt'])
})

test('a new folder, an empty one and one with charts are taken, private to the user', async () => {
  const folder = join(await emptyFolder(), 'data')
  for (const _ of ['new', 'with charts']) {
    const release = takeFolder(folder)
    expect(statSync(folder).mode & 0o077).toBe(0)
    release()
  }
  takeFolder(await emptyFolder())()
})
