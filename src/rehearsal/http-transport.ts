import { Agent, request } from 'node:http'
import { type Acknowledgement, acknowledgeWithinMs, type Envelope, type Transport } from './deliveries.ts'
import { signatureHeaders } from './signing.ts'

export type RawResponse = {
  readonly status: number
  readonly headers: Record<string, unknown>
  readonly body: string
}

/** Signed deliveries over HTTP: forms for commands and interactions, JSON for events. */
export function httpTransport(url: string, signingSecret: string): Transport {
  return {
    async send(envelope) {
      const { body, contentType } = encoded(envelope)
      const headers = {
        'content-type': contentType,
        ...signatureHeaders(body, signingSecret, envelope.signature),
        ...(envelope.retry && {
          'x-slack-retry-num': String(envelope.retry.number),
          'x-slack-retry-reason': envelope.retry.reason,
        }),
      }
      try {
        return acknowledgement(await post(url, headers, body))
      } catch (error) {
        const timedOut = error instanceof Error && error.name === 'TimeoutError'
        return {
          acknowledged: false,
          status: 0,
          reason: timedOut ? 'http_timeout' : 'connection_failed',
        }
      }
    },
  }
}

/**
 * One request as it is, for whatever a workspace would never send.
 * @throws when there is no answer within three seconds (`TimeoutError`) or no connection
 */
export function post(
  url: string,
  headers: Record<string, string>,
  body: string | Buffer,
): Promise<RawResponse> {
  return new Promise((resolve, reject) => {
    const outgoing = request(
      url,
      // A kept connection would hold up the app when it stops.
      {
        method: 'POST',
        agent: new Agent({ keepAlive: false }),
        headers: { ...headers, connection: 'close' },
      },
      (response) => {
        const parts: Buffer[] = []
        response.on('data', (part: Buffer) => parts.push(part))
        response.on('error', reject)
        response.on('end', () => {
          clearTimeout(timer)
          const { statusCode: status = 0 } = response
          resolve({
            status,
            headers: response.headers,
            body: Buffer.concat(parts).toString(),
          })
        })
      },
    )
    const timer = setTimeout(() => {
      outgoing.destroy(
        Object.assign(new Error('no answer within three seconds'), {
          name: 'TimeoutError',
        }),
      )
    }, acknowledgeWithinMs)
    outgoing.on('error', (error) => {
      clearTimeout(timer)
      reject(error)
    })
    outgoing.end(body)
  })
}

export function encoded({ kind, payload }: Envelope): {
  body: string
  contentType: string
} {
  if (kind === 'event') return { body: JSON.stringify(payload), contentType: 'application/json' }
  const form =
    kind === 'command'
      ? new URLSearchParams(Object.entries(payload).map(([k, v]): [string, string] => [k, String(v)]))
      : new URLSearchParams({ payload: JSON.stringify(payload) })
  return {
    body: form.toString(),
    contentType: 'application/x-www-form-urlencoded',
  }
}

function acknowledgement({ status, headers, body }: RawResponse): Acknowledgement {
  const noRetry = headers['x-slack-no-retry'] === '1'
  if (status < 200 || status > 299) return { acknowledged: false, status, reason: 'http_error', noRetry }
  if (body === '') return { acknowledged: true, status }
  const isJson = String(headers['content-type']).startsWith('application/json')
  if (!isJson) return { acknowledged: true, status, answer: body }
  try {
    return { acknowledged: true, status, answer: JSON.parse(body) }
  } catch {
    return { acknowledged: true, status, answer: body }
  }
}
