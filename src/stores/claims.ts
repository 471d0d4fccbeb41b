import type { FileHandle } from 'node:fs/promises'
import { uncovered } from './cover.ts'
import { type Disk, writeAll } from './disk.ts'
import { lineOf, readLines } from './line.ts'
import type { Waiting } from './outbox.ts'

/** A key, and where the count of the store stood when it was handed out. */
type Claim = { readonly key: string; readonly order: number }

const before = 'claims'
const longBytes = 65_536

/**
 * The list of keys that were handed out for sending, written before they are: after a crash these notices may
 * have been sent, and the others were not. When the list cannot be read, any may have been.
 */
export async function openClaims(path: string, disk: Disk) {
  const bytes = await disk.readFile(path).catch((error) => {
    if (error.code === 'ENOENT') return Buffer.alloc(0)
    throw error
  })
  const found = readLines<Claim>(bytes, before, uncovered)
  const claims = new Map(found.kept.map(({ key, order }) => [key, order]))
  let handle: FileHandle | undefined
  let size = 0
  let hash = before
  let busy: Promise<void> = Promise.resolve()

  return {
    /** It was handed out, and nothing was written down about it since. */
    mayHaveSent({ notice, triedAt = 0 }: Waiting): boolean {
      return found.end.is === 'damaged' || (claims.get(notice.key) ?? -1) >= triedAt
    },

    /** Writes keys down, synced; one call after the other. */
    note(handedOut: readonly Claim[]): Promise<void> {
      const done = busy.then(() => append(handedOut))
      busy = done.catch(() => {})
      return done
    },

    areLong: (): boolean => size > longBytes,

    /** Empties the list: what it said is known elsewhere. */
    empty(): Promise<void> {
      const done = busy.then(empty)
      busy = done.catch(() => {})
      return done
    },

    close: async () => handle?.close(),
  }

  async function append(handedOut: readonly Claim[]) {
    handle ??= await disk.open(path, 'w+', 0o600)
    const line = lineOf(handedOut, hash, uncovered)
    const written = Buffer.from(line.text)
    await writeAll(handle, written, size)
    await handle.datasync()
    size += written.length
    hash = line.hash
  }

  async function empty() {
    if (size === 0 && bytes.length === 0) return
    handle ??= await disk.open(path, 'w+', 0o600)
    await handle.truncate(0)
    await handle.datasync()
    size = 0
    hash = before
  }
}
