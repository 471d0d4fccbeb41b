import { statSync } from 'node:fs'
import fs, { type FileHandle } from 'node:fs/promises'
import { StoreClosed } from '../desk/ports.ts'

/** The file system, an edge like any other. */
export type Disk = Pick<typeof fs, 'open' | 'readFile' | 'rename' | 'stat' | 'unlink'> & {
  /** Length of the file that a name means now. At once: a few microseconds, where the queue of the disk takes longer. */
  sizeOf(path: string): number
}
export const disk: Disk = { ...fs, sizeOf: (path) => statSync(path).size }

/** Says what a person should know of the kept files; words hold ids, never answers. */
export type Report = (said: { readonly file: string; readonly words: string }) => void

/** All of it or an error: a disk that is nearly full takes a part first. */
export async function writeAll(handle: FileHandle, bytes: Buffer, position: number) {
  let done = 0
  while (done < bytes.length) {
    const { bytesWritten } = await handle.write(bytes, done, bytes.length - done, position + done)
    if (bytesWritten === 0) throw new Error('the disk took nothing')
    done += bytesWritten
  }
}

/** Makes the names in a folder durable: a new file is only there after a power cut when its folder was synced. */
export async function syncFolder(on: Disk, folder: string) {
  const handle = await on.open(folder, 'r')
  try {
    await handle.sync()
  } finally {
    await handle.close()
  }
}

/** What to tell a person whose submission the disk did not take. */
export function notKept(error: unknown): StoreClosed {
  return new StoreClosed(`${reason(error)} Nothing of this was kept.`, error)
}

/** What to tell a person whose chart the disk did not give back. */
export function notRead(error: unknown): StoreClosed {
  return new StoreClosed(`${reason(error)} The chart cannot be read now.`, error)
}

export function isFull(error: unknown): boolean {
  return ['ENOSPC', 'EDQUOT', 'EFBIG'].includes((error as NodeJS.ErrnoException).code ?? '')
}

function reason(error: unknown): string {
  if (isFull(error)) return 'The disk is full.'
  switch ((error as NodeJS.ErrnoException).code) {
    case 'EROFS':
    case 'EACCES':
    case 'EPERM':
      return 'The data folder may not be read or written.'
    case 'ENOENT':
      return 'The data folder is gone.'
    default:
      return 'The disk failed.'
  }
}
