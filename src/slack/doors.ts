import type { App } from '@slack/bolt'
import { actions, onAction } from './actions.ts'
import { commands, onCommand } from './commands.ts'
import type { Doorway } from './door.ts'
import { type CommandName, prefixed } from './manifest.ts'
import { onView } from './reading.ts'
import type { Command } from './shown.ts'
import { views } from './views.ts'

/** Every way in from chat, in one place: what can be typed, pressed and sent in. */
export function openDoors(app: App, doorway: Doorway, prefix: string): void {
  for (const [name, command] of Object.entries<Command>(commands))
    app.command(prefixed(name as CommandName, prefix), onCommand(doorway, command))
  for (const [name, action] of Object.entries(actions))
    app.action({ type: 'block_actions', action_id: name }, onAction(doorway, action) as never)
  for (const [name, reading] of Object.entries(views)) app.view(name, onView(doorway, reading))
}
