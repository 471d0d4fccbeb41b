import type { IncomingMessage } from 'node:http'
import type { RawArguments } from './api-method.ts'

export async function bodyOf(request: IncomingMessage): Promise<Buffer> {
  const parts: Buffer[] = []
  for await (const part of request) parts.push(part as Buffer)
  return Buffer.concat(parts)
}

/** Arguments from the address, a form or JSON, all as strings. */
export function argumentsOf(url: URL, contentType: string, body: Buffer): RawArguments {
  const text = body.toString()
  const sent = contentType.startsWith('application/json')
    ? Object.entries(objectIn(text)).map(
        ([k, v]) => [k, typeof v === 'string' ? v : JSON.stringify(v)] as const,
      )
    : [...new URLSearchParams(text)]
  return Object.fromEntries([...url.searchParams, ...sent])
}

export function objectIn(text: string): Record<string, unknown> {
  try {
    const parsed: unknown = JSON.parse(text)
    return typeof parsed === 'object' && parsed !== null ? (parsed as Record<string, unknown>) : {}
  } catch {
    return {}
  }
}
