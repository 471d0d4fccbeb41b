import type {
  AllMiddlewareArgs,
  App,
  SlackActionMiddlewareArgs,
  SlackCommandMiddlewareArgs,
  SlackViewMiddlewareArgs,
  ViewSubmitAction,
} from '@slack/bolt'

type Command = (sent: SlackCommandMiddlewareArgs & AllMiddlewareArgs) => Promise<void>
type Action = (sent: SlackActionMiddlewareArgs & AllMiddlewareArgs) => Promise<void>
type View = (sent: SlackViewMiddlewareArgs<ViewSubmitAction> & AllMiddlewareArgs) => Promise<void>

export type Gathered = {
  command(name: string, listener: Command): void
  action(name: string, listener: Action): void
  view(name: string, listener: View): void
}

const any = /^/

/**
 * One listener of the framework for each kind of delivery, and a table behind it. The framework asks every listener
 * whether a delivery is meant for it, so that each door that is added would make all others slower (D27). What no
 * door knows stays unanswered here, as it does in the framework.
 */
export function gathered(app: App): Gathered {
  const doors = {
    commands: new Map<string, Command>(),
    actions: new Map<string, Action>(),
    views: new Map<string, View>(),
  }
  app.command(any, async (sent) => doors.commands.get(sent.command.command)?.(sent))
  app.action({ type: 'block_actions', action_id: any }, async (sent) => {
    await doors.actions.get(sent.payload.action_id)?.(sent)
  })
  app.view<ViewSubmitAction>(any, async (sent) => doors.views.get(sent.view.callback_id)?.(sent))
  return {
    command: (name, listener) => void doors.commands.set(name, listener),
    action: (name, listener) => void doors.actions.set(name, listener),
    view: (name, listener) => void doors.views.set(name, listener),
  }
}
