import type { App } from '@slack/bolt'
import { actions, onAction } from './actions.ts'
import { type Command, commands, onCommand } from './commands.ts'
import type { Doorway } from './door.ts'
import { onView, views } from './views.ts'

/** Every way in from chat, in one place: what can be typed, pressed and sent in. */
export function openDoors(app: App, doorway: Doorway): void {
  for (const [name, command] of Object.entries<Command>(commands))
    app.command(name, onCommand(doorway, command))
  for (const [name, action] of Object.entries(actions))
    app.action({ type: 'block_actions', action_id: name }, onAction(doorway, action) as never)
  for (const [name, reading] of Object.entries(views)) app.view(name, onView(doorway, reading))
}
