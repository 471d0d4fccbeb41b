import type { App } from '@slack/bolt'
import { actions, onAction } from './actions.ts'
import { commands, onCommand } from './commands.ts'
import type { Doorway } from './door.ts'
import { onFound } from './founding.ts'
import { onHome } from './home.ts'
import { type CommandName, prefixed } from './manifest.ts'
import { onView, type Reading } from './reading.ts'
import type { Command } from './shown.ts'
import { onTypedMessage } from './typed-message.ts'
import { inNeed, views } from './views.ts'

/** Every way in from chat, in one place: what can be typed, pressed and sent in. */
export function openDoors(app: App, edges: Omit<Doorway, 'typed'>, prefix: string): void {
  const doorway: Doorway = { ...edges, typed: (name) => prefixed(name, prefix) }
  for (const [name, command] of Object.entries<Command>(commands))
    app.command(prefixed(name as CommandName, prefix), onCommand(doorway, command))
  for (const name of Object.keys(actions) as (keyof typeof actions)[])
    app.action({ type: 'block_actions', action_id: name }, onAction(doorway, name) as never)
  for (const [name, reading] of Object.entries<Reading>(views))
    app.view(name, onView(doorway, reading, inNeed.has(name) ? 'admit' : 'refuse'))
  app.view('found', onFound(doorway))
  app.event('app_home_opened', onHome(doorway))
  app.event('message', onTypedMessage(doorway))
}
