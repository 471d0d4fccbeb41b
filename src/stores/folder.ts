import fs from 'node:fs'
import { join } from 'node:path'
import { StoreClosed } from '../desk/ports.ts'
import { notKept } from './disk.ts'
import { lockFolder } from './lock.ts'
import { sweep } from './opening.ts'

/** Makes the data folder, private to the user, and takes it for this process. Gives back how to let go. */
export function takeFolder(folder: string): () => void {
  try {
    for (const each of [folder, join(folder, 'charts')]) {
      fs.mkdirSync(each, { recursive: true, mode: 0o700 })
      const { mode } = fs.statSync(each)
      if ((mode & 0o077) !== 0) fs.chmodSync(each, mode & 0o700)
    }
    const unlock = lockFolder(join(folder, 'lock'))
    sweep(folder)
    sweep(join(folder, 'charts'))
    return unlock
  } catch (error) {
    throw error instanceof StoreClosed ? error : notKept(error)
  }
}
