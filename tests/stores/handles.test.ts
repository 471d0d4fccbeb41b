import fs from 'node:fs'
import { rm } from 'node:fs/promises'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { type Disk, disk } from '../../src/stores/disk.ts'
import { handles } from '../../src/stores/handles.ts'
import { emptyFolder } from './folders.ts'

let folder: string
/** Files in the order in which they were opened. */
let opened: string[]
let counting: Disk

beforeEach(async () => {
  folder = await emptyFolder()
  opened = []
  counting = {
    ...disk,
    open: (path, ...rest) => {
      opened.push(String(path).slice(-1))
      return disk.open(path, ...rest)
    },
  }
  for (const name of 'abcd') fs.writeFileSync(join(folder, name), `chart ${name}`)
})
afterEach(() => rm(folder, { recursive: true }))

const at = (name: string) => join(folder, name)

test('a look through the whole clinic closes no file that somebody is about to write to', async () => {
  const open = handles(counting, 2)
  const read = (name: string) =>
    open.glance(at(name), async (handle) => (await handle.readFile()).toString('utf8'))
  const touch = (name: string) => open.use(at(name), async (handle) => void (await handle.stat()))
  await touch('a')
  for (const name of 'cdcd') expect(await read(name)).toBe(`chart ${name}`)
  await touch('b')
  await touch('a')
  await touch('b')
  expect(opened.join('')).toBe('acdcdb')
  await open.close()
})

test('while there is room, who reads a chart finds it open for the write that follows', async () => {
  const open = handles(counting, 2)
  await open.glance(at('a'), async (handle) => void (await handle.stat()))
  await open.use(at('a'), async (handle) => void (await handle.stat()))
  expect(opened).toEqual(['a'])
  await open.close()
})

test('a file that cannot be opened is said to whoever asked, and keeps nobody else', async () => {
  const open = handles(counting, 1)
  await open.use(at('a'), async (handle) => void (await handle.stat()))
  await expect(open.glance(at('none'), async () => {})).rejects.toThrow('ENOENT')
  await open.use(at('a'), async (handle) => void (await handle.stat()))
  expect(opened).toEqual(['a', 'e'])
  await open.close()
})
