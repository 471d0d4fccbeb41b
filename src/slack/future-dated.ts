import type { HTTPReceiver } from '@slack/bolt'

const toleranceSeconds = 300

/**
 * The framework refuses deliveries that are stale and accepts those dated in the future: a captured one could be
 * kept for later. Both ends of the five minutes are held here, before the body is read.
 */
export function refuseFutureDated(receiver: HTTPReceiver): void {
  const listen = receiver.requestListener
  receiver.requestListener = (request, response) => {
    const at = Number(request.headers['x-slack-request-timestamp'])
    if (at > Date.now() / 1000 + toleranceSeconds) response.writeHead(401).end()
    else listen(request, response)
  }
}
