import fs from 'node:fs'
import { join } from 'node:path'
import { StoreClosed } from '../desk/ports.ts'
import { notKept } from './disk.ts'
import { lockFolder } from './lock.ts'
import { sweep } from './opening.ts'

/** What stands beside the charts. */
const own = /^(lock|index|claims|clock)/

/**
 * Makes the data folder, private to the user, and takes it for this process. Gives back how to let go. A folder that
 * holds other things and no charts is left as it is: it was named by mistake, and others may need to get into it.
 */
export function takeFolder(folder: string): () => void {
  try {
    const there = fs.existsSync(folder) ? fs.readdirSync(folder) : []
    if (!there.includes('charts') && there.some((name) => !own.test(name)))
      throw new StoreClosed(`${folder} holds other things and no charts: name a new folder, or an empty one.`)
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
