import { Agent, request } from 'node:http'
import { signatureHeaders } from '../rehearsal/signing.ts'

export type Posted = { readonly status: number; readonly body: string }
export type Signed = { readonly body: string; readonly headers: Readonly<Record<string, string | number>> }
export type Poster = {
  /** Good for five minutes. */
  signed(body: string): Signed
  send(form: Signed): Promise<Posted>
  post(body: string): Promise<Posted>
  close(): void
}

/** Sends signed forms over kept connections, as the platform does. Throws when a connection breaks. */
export function signedPoster(url: string, signingSecret: string, atOnce: number): Poster {
  const agent = new Agent({ keepAlive: true, maxSockets: atOnce })

  function signed(body: string): Signed {
    const headers = {
      ...signatureHeaders(body, signingSecret),
      'content-type': 'application/x-www-form-urlencoded',
      'content-length': Buffer.byteLength(body),
    }
    return { body, headers }
  }

  function send({ body, headers }: Signed): Promise<Posted> {
    return new Promise((resolve, reject) => {
      const outgoing = request(url, { method: 'POST', agent, headers }, (response) => {
        let text = ''
        response.setEncoding('utf8')
        response.on('data', (part) => {
          text += part
        })
        response.on('error', reject)
        response.on('end', () => resolve({ status: response.statusCode ?? 0, body: text }))
      })
      outgoing.on('error', reject)
      outgoing.end(body)
    })
  }

  return { signed, send, post: (body) => send(signed(body)), close: () => agent.destroy() }
}

/** Does a piece of work over and over, so many at once, until it answers false. */
export async function atOnce(many: number, work: (i: number) => Promise<boolean>): Promise<void> {
  let next = 0
  const worker = async () => {
    while (await work(next++)) {
      // The work itself says when to stop.
    }
  }
  await Promise.all(Array.from({ length: many }, worker))
}
