import type { IncomingMessage } from 'node:http'
import { parse } from 'node:querystring'
import type { HTTPReceiver } from '@slack/bolt'

/** No form of ours comes near; the platform's own limit for a view is 250 KB. */
const mostBytes = 4_000_000

/**
 * Refuses what carries no object before the framework sees it: a signed `null` would end the process, because the
 * framework reads a field of it where nobody can catch that. The body is read once, here, and handed on.
 */
export function refuseMalformed(receiver: HTTPReceiver): void {
  const listen = receiver.requestListener
  receiver.requestListener = async (request, response) => {
    try {
      const body = request.method === 'POST' ? await bodyOf(request) : undefined
      if (body === 'too large') return void response.writeHead(413, { connection: 'close' }).end()
      if (body && !carriesObject(body, request.headers['content-type']))
        return void response.writeHead(400).end()
      listen(Object.assign(request, body ? { rawBody: body } : {}), response)
    } catch {
      // The sender went away in mid-sentence.
      response.destroy()
    }
  }
}

function bodyOf(request: IncomingMessage): Promise<Buffer | 'too large'> {
  return new Promise((resolve, reject) => {
    const parts: Buffer[] = []
    let size = 0
    request.on('data', (part: Buffer) => {
      size += part.length
      if (size <= mostBytes) parts.push(part)
      // The rest is let by unread: an answer before the end of the question is lost on many senders.
      else parts.length = 0
    })
    request.on('end', () => resolve(size > mostBytes ? 'too large' : Buffer.concat(parts)))
    request.on('error', reject)
    request.on('close', () => reject(new Error('closed')))
  })
}

function carriesObject(body: Buffer, contentType: string | undefined): boolean {
  const form = contentType === 'application/x-www-form-urlencoded'
  // What the platform sends nearly always: one field with an object in it.
  if (form && body.subarray(0, 11).equals(usualStart) && !body.includes('&')) return true
  const text = form ? parse(body.toString()).payload : body.toString('utf8', 0, 100)
  return typeof text !== 'string' || /^\s*\{/.test(text)
}

const usualStart = Buffer.from('payload=%7B')
