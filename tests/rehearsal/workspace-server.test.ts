import { connect } from 'node:net'
import fc from 'fast-check'
import { afterEach, expect, test } from 'vitest'
import { methods } from '../../src/rehearsal/api-methods.ts'
import { openStage, secrets, tidy } from './stage.ts'

afterEach(tidy)

test('a caller who goes away in mid-sentence is no fault of the workspace', async () => {
  const { workspace } = await openStage()
  const socket = connect(Number(new URL(workspace.apiUrl).port), '127.0.0.1')
  socket.write('POST /api/chat.postMessage HTTP/1.1\r\nhost: a\r\ncontent-length: 100\r\n\r\nchannel=')
  await new Promise((resolve) => socket.on('ready', () => setTimeout(resolve, 50)))
  socket.destroy()
  await workspace.quiet()
  expect(workspace.calls).toEqual([])
})

test('whatever a method is called with, it answers and the workspace stays whole', async () => {
  const { workspace } = await openStage()
  workspace.faults.rateLimits(false)
  const names = [
    'channel',
    'ts',
    'user',
    'users',
    'blocks',
    'view',
    'view_id',
    'metadata',
    'files',
    'limit',
    'cursor',
  ]
  const said = fc.oneof(
    fc.constantFrom('CTEAM', 'UADA', 'null', '[]', '{}', '[null]', '{"type":"modal","blocks":[null]}', ''),
    fc.json(),
    fc.string(),
  )
  const calls = fc.tuple(fc.constantFrom(...methods.keys()), fc.dictionary(fc.constantFrom(...names), said))
  await fc.assert(
    fc.asyncProperty(calls, async ([method, given]) => {
      const response = await fetch(workspace.apiUrl + method, {
        method: 'POST',
        headers: { authorization: `Bearer ${secrets.botToken}` },
        body: new URLSearchParams(given),
      })
      const { ok, error } = (await response.json()) as { ok: boolean; error?: string }
      expect(ok || typeof error === 'string').toBe(true)
    }),
    { numRuns: 400 },
  )
  await workspace.quiet()
})
