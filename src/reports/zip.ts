import { ZipFile } from 'yazl'
import type { Instant } from '../chart/day.ts'

export type Filed = { readonly name: string; readonly content: string | Uint8Array }

/** Several files as one ZIP, all dated alike, so that the same record gives the same bytes. */
export async function zipOf(files: readonly Filed[], now: Instant): Promise<Uint8Array> {
  const zip = new ZipFile()
  const chunks: Buffer[] = []
  zip.outputStream.on('data', (chunk: Buffer) => chunks.push(chunk))
  const done = new Promise<void>((resolve, reject) => {
    zip.outputStream.on('end', resolve)
    zip.on('error', reject)
  })
  for (const { name, content } of files)
    zip.addBuffer(Buffer.from(content), name, { mtime: new Date(now), forceDosTimestamp: true })
  zip.end()
  await done
  return Buffer.concat(chunks)
}
