import { expect, test } from 'vitest'
import { openTraffic } from '../../src/rehearsal/traffic.ts'

test('it is quiet when what was under way has ended, and what it set off too', async () => {
  const traffic = openTraffic()
  const ended: string[] = []
  const later = (name: string, next?: () => void) =>
    traffic.track(name, async () => {
      await new Promise((resolve) => setImmediate(resolve))
      ended.push(name)
      next?.()
    })
  void later('first', () => void later('second'))
  await traffic.quiet()
  expect(ended).toEqual(['first', 'second'])
})

test('the drain of the bot is waited for, the usual one unless another is named', async () => {
  const traffic = openTraffic()
  const drained: string[] = []
  traffic.drainWith(async () => void drained.push('usual'))
  await traffic.quiet()
  await traffic.quiet(async () => void drained.push('another'))
  expect([...new Set(drained)]).toEqual(['usual', 'another'])
})

test('a fault of the workspace itself comes out at the next quiet, once', async () => {
  const traffic = openTraffic()
  traffic.broke(new Error('a bug of ours'))
  await expect(traffic.quiet()).rejects.toThrow('a bug of ours')
  await traffic.quiet()
})
