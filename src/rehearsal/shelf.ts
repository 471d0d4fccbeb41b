import { randomBytes } from 'node:crypto'
import { type Clock, readClock } from './clock.ts'

export type StoredFile = {
  readonly id: string
  readonly name: string
  readonly lengthBytes: number
  readonly altText?: string
  title: string
  bytes?: Buffer
  /** Unset until the upload is completed; then the instant from which the file can be shown. */
  readyAtMs?: number
  channel?: string
}

export type Shelf = {
  reserve(file: { name: string; lengthBytes: number; altText?: string }): StoredFile
  find(id: string): StoredFile | undefined
  all(): readonly StoredFile[]
  remove(id: string): boolean
  isReady(file: StoredFile): boolean
  /** Files that blocks name and that cannot be shown now. */
  unready(blocks: readonly unknown[]): string[]
}

/** Files of the workspace. Processing takes time after the upload, so a picture can be refused at first. */
export function openShelf(clock: Clock): Shelf {
  const files = new Map<string, StoredFile>()
  const isReady = (file: StoredFile) => file.readyAtMs !== undefined && file.readyAtMs <= readClock(clock)
  const byReference = ({ id, url }: { id?: string; url?: string }) =>
    files.get(id ?? /\/files\/(F[A-Z0-9]+)/.exec(url ?? '')?.[1] ?? '')
  return {
    reserve(file) {
      const stored = {
        id: `F${randomBytes(5).toString('hex').toUpperCase()}`,
        title: file.name,
        ...file,
      }
      files.set(stored.id, stored)
      return stored
    },
    find: (id) => files.get(id),
    all: () => [...files.values()],
    remove: (id) => files.delete(id),
    isReady,
    unready: (blocks) =>
      references(blocks).flatMap((reference) => {
        const file = byReference(reference)
        return file && isReady(file) && isPicture.test(file.name) ? [] : [reference.id ?? reference.url ?? '']
      }),
  }
}

const isPicture = /\.(png|jpe?g|gif)$/i

function references(part: unknown): { id?: string; url?: string }[] {
  if (Array.isArray(part)) return part.flatMap(references)
  if (typeof part !== 'object' || part === null) return []
  return Object.entries(part).flatMap(([key, inner]) =>
    key === 'slack_file' ? [inner as { id?: string; url?: string }] : references(inner),
  )
}
