import type { AllMiddlewareArgs, SlackViewMiddlewareArgs, ViewSubmitAction } from '@slack/bolt'

export type Sent = SlackViewMiddlewareArgs<ViewSubmitAction> & AllMiddlewareArgs
type Answer = Parameters<Sent['ack']>
type Listener = (sent: Sent) => Promise<void>

/** More than are open at one time; the platform gives every form that is opened an id of its own. */
const mostRemembered = 1000

/**
 * A form that is sent in twice, by a second tap or by an impatient client, is handed in once, and both are told the
 * same. What was refused may be sent again. Entries with a cause of their own (a check-in, a session) are kept from
 * doubling by the chart as well; exercises and requests, of which there may be several a day, only here.
 */
export function sentOnce(listen: Listener): Listener {
  const answers = new Map<string, Promise<Answer | 'failed'>>()
  return async (sent) => {
    const { id, hash, callback_id, private_metadata } = sent.view
    const key = [sent.body.user.id, callback_id, id, hash, private_metadata].join(' ')
    const before = await answers.get(key)
    if (before && before !== 'failed') return sent.ack(...before)
    let tell: (answer: Answer | 'failed') => void = () => {}
    answers.set(key, new Promise((resolve) => (tell = resolve)))
    for (const oldest of [...answers.keys()].slice(0, -mostRemembered)) answers.delete(oldest)
    const ack = async (...answer: Answer): Promise<void> => {
      tell(answer)
      if (mayComeAgain(answer)) answers.delete(key)
      await sent.ack(...answer)
    }
    try {
      await listen({ ...sent, ack } as Sent)
    } catch (error) {
      tell('failed')
      answers.delete(key)
      throw error
    }
  }
}

/** Refused, or asked back: nothing was handed in. */
function mayComeAgain([answer]: Answer): boolean {
  const action = answer && 'response_action' in answer ? answer.response_action : undefined
  return action === 'errors' || action === 'push'
}
