import { readdirSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { run } from '../../src/commands/manifest.ts'
import { commands } from '../../src/slack/commands.ts'
import { commandWords } from '../../src/slack/manifest.ts'

const manifest = JSON.parse(readFileSync('manifests/slack.json', 'utf8'))

test('the manifest opens exactly the commands that the code answers', () => {
  const opened = manifest.features.slash_commands.map((one: { command: string }) => one.command)
  expect(opened.toSorted()).toEqual(Object.keys(commands).toSorted())
})

test('the manifest in the folder is the one that the command prints', async () => {
  const lines: string[] = []
  expect(await run([], (line) => lines.push(line))).toBe(0)
  expect(JSON.parse(lines.join('\n'))).toEqual(manifest)
})

test('a workspace where a name is taken gets every command under its prefix, at its own host', async () => {
  const lines: string[] = []
  expect(await run(['--prefix', 'tw', '--host', 'bot.example'], (line) => lines.push(line))).toBe(0)
  const made = JSON.parse(lines.join('\n'))
  const named = made.features.slash_commands.map((one: { command: string }) => one.command)
  expect(named).toEqual(Object.keys(commandWords).map((name) => `/tw-${name.slice(1)}`))
  expect(named.every((name: string) => name.length <= 32)).toBe(true)
  expect(made.settings.interactivity.request_url).toBe('https://bot.example/slack/events')
  expect(await run(['--prefix', 'T W'], (line) => lines.push(line))).toBe(2)
})

test('every door leads to the one address that the receiver answers', () => {
  const urls = manifest.features.slash_commands.map((one: { url: string }) => one.url)
  expect(new Set([...urls, manifest.settings.interactivity.request_url]).size).toBe(1)
  expect(urls[0]).toMatch(/\/slack\/events$/)
})

test('the events that the manifest asks for are those that the doors listen to, with the scope of each', () => {
  const doors = readFileSync('src/slack/doors.ts', 'utf8')
  const heard = [...doors.matchAll(/app\.event\('([a-z_]+)'/g)].map((m) => String(m[1]))
  const asked = { app_home_opened: ['app_home_opened', undefined], message: ['message.im', 'im:history'] }
  expect(heard.toSorted()).toEqual(Object.keys(asked).toSorted())
  expect(manifest.settings.event_subscriptions.bot_events).toEqual(Object.values(asked).map(([name]) => name))
  expect(manifest.oauth_config.scopes.bot).toContain('im:history')
  expect(manifest.features.app_home.messages_tab_read_only_enabled).toBe(false)
})

test('every Web API method that the face calls has its scope', () => {
  const scopes: Record<string, string[]> = {
    'chat.postMessage': ['chat:write'],
    'chat.update': ['chat:write'],
    'conversations.open': ['im:write'],
    'conversations.history': ['im:history', 'channels:history', 'groups:history'],
    'views.open': [],
    'views.push': [],
    'views.update': [],
    'views.publish': [],
    'users.info': ['users:read'],
    'users.list': ['users:read'],
    'files.delete': ['files:write'],
    'auth.test': [],
  }
  const sources = readdirSync('src/slack')
    .map((name) => readFileSync(`src/slack/${name}`, 'utf8'))
    .join('\n')
  const called = [...sources.matchAll(/client\.((?:chat|conversations|views|auth|users|files)\.\w+)\(/g)].map(
    (m) => String(m[1]),
  )
  expect(called.filter((method) => !scopes[method])).toEqual([])
  const needed = new Set(['commands', ...called.flatMap((method) => scopes[method] ?? [])])
  expect(manifest.oauth_config.scopes.bot.toSorted()).toEqual([...needed].toSorted())
})
