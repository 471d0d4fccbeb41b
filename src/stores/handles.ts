import { constants } from 'node:fs'
import type { FileHandle } from 'node:fs/promises'
import type { Disk } from './disk.ts'

export type Handles = ReturnType<typeof handles>

/** A write is on the disk when it returns, as after fdatasync, and costs one wait instead of two. */
const syncedWrites = constants.O_RDWR | constants.O_DSYNC

/** Files that stay open between writes, at most about `most`: those used last. */
export function handles(disk: Disk, most: number) {
  const open = new Map<string, { opened: Promise<FileHandle>; users: number }>()

  return {
    async use<T>(path: string, deed: (handle: FileHandle) => Promise<T>): Promise<T> {
      const slot = open.get(path) ?? { opened: disk.open(path, syncedWrites), users: 0 }
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
        // Waited for, or closing would fall behind opening until the system gives no more.
        if (open.size > most) await letGo()
      }
    },

    /**
     * The same for whoever only reads. The file stays open while less than half of the room is taken, because whoever
     * reads a chart is mostly about to write to it; but a look through the whole clinic pushes nobody's file out.
     */
    async glance<T>(path: string, deed: (handle: FileHandle) => Promise<T>): Promise<T> {
      if (open.has(path) || open.size < most / 2) return this.use(path, deed)
      const handle = await disk.open(path, constants.O_RDONLY)
      try {
        return await deed(handle)
      } finally {
        await handle.close()
      }
    },

    /** Closes a file that is about to be replaced by another of the same name. */
    async forget(path: string) {
      const slot = open.get(path)
      open.delete(path)
      if (slot?.users === 0) await shut(slot.opened)
    },

    async close() {
      const slots = [...open.values()]
      open.clear()
      await Promise.all(slots.map((slot) => shut(slot.opened)))
    },
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
async function shut(opened: Promise<FileHandle>) {
  await opened.then((handle) => handle.close()).catch(() => {})
}
