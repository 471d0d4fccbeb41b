import type { FileHandle } from 'node:fs/promises'
import type { Disk } from './disk.ts'

/** An open file, and which file it was when it was opened: a name can come to mean another one. */
export type Opened = { readonly handle: FileHandle; readonly inode: number }
export type Handles = ReturnType<typeof handles>

/** Files that stay open between writes, at most about `most`: those used last. */
export function handles(disk: Disk, most: number) {
  const open = new Map<string, { opened: Promise<Opened>; users: number }>()

  return {
    async use<T>(path: string, deed: (opened: Opened) => Promise<T>): Promise<T> {
      const slot = open.get(path) ?? { opened: openFile(path), users: 0 }
      open.delete(path)
      open.set(path, slot)
      slot.users += 1
      try {
        return await deed(await slot.opened)
      } catch (error) {
        if (open.get(path) === slot) open.delete(path)
        throw error
      } finally {
        slot.users -= 1
        if (slot.users === 0 && open.get(path) !== slot) await shut(slot.opened)
        if (open.size > most) await letGo()
      }
    },

    async close() {
      const slots = [...open.values()]
      open.clear()
      await Promise.all(slots.map((slot) => shut(slot.opened)))
    },
  }

  async function openFile(path: string): Promise<Opened> {
    const handle = await disk.open(path, 'r+')
    return { handle, inode: (await handle.stat()).ino }
  }

  async function letGo() {
    for (const [path, slot] of open) {
      if (slot.users > 0) continue
      open.delete(path)
      return shut(slot.opened)
    }
  }
}

/** Everything in it was synced when it was written: a failure to close loses nothing. */
async function shut(opened: Promise<Opened>) {
  await opened.then(({ handle }) => handle.close()).catch(() => {})
}
