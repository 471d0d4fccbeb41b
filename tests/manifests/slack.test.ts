import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { commands } from '../../src/slack/commands.ts'

const manifest = JSON.parse(readFileSync('manifests/slack.json', 'utf8'))

test('the manifest opens exactly the commands that the code answers', () => {
  const opened = manifest.features.slash_commands.map((one: { command: string }) => one.command)
  expect(opened.toSorted()).toEqual(Object.keys(commands).toSorted())
})

test('every door leads to the one address that the receiver answers', () => {
  const urls = manifest.features.slash_commands.map((one: { url: string }) => one.url)
  expect(new Set([...urls, manifest.settings.interactivity.request_url]).size).toBe(1)
  expect(urls[0]).toMatch(/\/slack\/events$/)
})

test('every Web API method that the face calls has its scope', () => {
  const scopes: Record<string, string[]> = {
    'chat.postMessage': ['chat:write'],
    'chat.update': ['chat:write'],
    'conversations.open': ['im:write'],
    'conversations.history': ['im:history', 'channels:history', 'groups:history'],
    'views.open': [],
    'auth.test': [],
  }
  const sources = ['face', 'actions', 'commands', 'identity', 'views', 'app', 'door']
    .map((name) => readFileSync(`src/slack/${name}.ts`, 'utf8'))
    .join('\n')
  const called = [...sources.matchAll(/client\.((?:chat|conversations|views|auth|users|files)\.\w+)\(/g)].map(
    (m) => String(m[1]),
  )
  expect(called.filter((method) => !scopes[method])).toEqual([])
  const needed = new Set(['commands', ...called.flatMap((method) => scopes[method] ?? [])])
  expect(manifest.oauth_config.scopes.bot.toSorted()).toEqual([...needed].toSorted())
})
