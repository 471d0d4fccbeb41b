import { createCipheriv, createDecipheriv, randomBytes } from 'node:crypto'
import { StoreClosed } from '../desk/ports.ts'

/** How the JSON text of a line is kept on disk: as it is, or under a key. What it gives is JSON again. */
export type Cover = { close(text: string): string; open(text: string): string }

/** A key with the name under which lines refer to it. 32 bytes, for AES-256-GCM. */
export type ChartKey = { readonly id: string; readonly key: Buffer }

export const uncovered: Cover = {
  close: (text) => text,
  open(text) {
    if (isCovered(text)) throw missing(keyIdOf(text))
    return text
  },
}

/**
 * Keeps lines under the first key and reads those under any of them, and those that were kept without.
 * `open` throws `StoreClosed` when the key is not there or not the one that the line was kept under.
 */
export function coverOf(keys: readonly ChartKey[]): Cover {
  const [first] = keys
  if (!first) return uncovered
  return {
    close(text) {
      const nonce = randomBytes(nonceBytes)
      const cipher = createCipheriv('aes-256-gcm', first.key, nonce).setAAD(Buffer.from(first.id))
      const closed = Buffer.concat([nonce, cipher.update(text, 'utf8'), cipher.final()])
      return JSON.stringify({
        key: first.id,
        closed: Buffer.concat([closed, cipher.getAuthTag()]).toString('base64'),
      })
    },

    open(text) {
      if (!isCovered(text)) return text
      const { key: id, closed } = JSON.parse(text) as { key: string; closed: string }
      const known = keys.find((key) => key.id === id)
      if (!known) throw missing(id)
      return openUnder(known, Buffer.from(closed, 'base64'))
    },
  }
}

/** Reads `id:base64,id:base64`, the key to write under first. Throws `StoreClosed` with words about the first fault. */
export function chartKeys(text: string): ChartKey[] {
  const parts = text.split(',').filter((part) => part.trim() !== '')
  return parts.map((part) => {
    const [id = '', encoded = ''] = part.trim().split(':')
    const key = Buffer.from(encoded, 'base64')
    if (!/^[A-Za-z0-9._-]{1,40}$/.test(id))
      throw new StoreClosed('A chart key needs a name, as in 2026a:<base64>.')
    if (key.length !== keyBytes)
      throw new StoreClosed(`Chart key ${id} is not 32 bytes in base64. Make one: openssl rand -base64 32`)
    return { id, key }
  })
}

const keyBytes = 32
const nonceBytes = 12
const tagBytes = 16

/** Lines are lists; what a key closed is an object. */
const isCovered = (text: string): boolean => text.startsWith('{')
const keyIdOf = (text: string): string => (JSON.parse(text) as { key: string }).key

function openUnder({ id, key }: ChartKey, closed: Buffer): string {
  const decipher = createDecipheriv('aes-256-gcm', key, closed.subarray(0, nonceBytes)).setAAD(
    Buffer.from(id),
  )
  decipher.setAuthTag(closed.subarray(-tagBytes))
  try {
    return Buffer.concat([
      decipher.update(closed.subarray(nonceBytes, -tagBytes)),
      decipher.final(),
    ]).toString('utf8')
  } catch (error) {
    throw new StoreClosed(`Chart key ${id} is not the key that these charts were kept under.`, error)
  }
}

function missing(id: string): StoreClosed {
  return new StoreClosed(
    `These charts are kept under key ${id}. Add it to SANDERLING_CHART_KEYS, behind newer keys.`,
  )
}
