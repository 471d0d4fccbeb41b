import type { App } from '@slack/bolt'
import { actions, onAction } from './actions.ts'
import { commands, onCommand } from './commands.ts'
import type { Doorway } from './door.ts'
import { onFound } from './founding.ts'
import { gathered } from './gathered.ts'
import { onHome } from './home.ts'
import { type CommandName, prefixed } from './manifest.ts'
import { onView, type Reading } from './reading.ts'
import type { Command } from './shown.ts'
import { onTypedMessage } from './typed-message.ts'
import { inNeed, views } from './views.ts'

/** Every way in from chat, in one place: what can be typed, pressed and sent in. */
export function openDoors(app: App, edges: Omit<Doorway, 'typed'>, prefix: string): void {
  const doorway: Doorway = { ...edges, typed: (name) => prefixed(name, prefix) }
  const doors = gathered(app)
  for (const [name, command] of Object.entries<Command>(commands))
    doors.command(prefixed(name as CommandName, prefix), onCommand(doorway, command))
  for (const name of Object.keys(actions) as (keyof typeof actions)[])
    doors.action(name, onAction(doorway, name) as never)
  for (const [name, reading] of Object.entries<Reading>(views))
    doors.view(name, onView(doorway, reading, inNeed.has(name) ? 'admit' : 'refuse'))
  doors.view('found', onFound(doorway))
  app.event('app_home_opened', onHome(doorway))
  app.event('message', onTypedMessage(doorway))
}
