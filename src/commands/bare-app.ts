// The framework alone: acknowledges and does nothing. What our own process is measured against.
import type { AddressInfo } from 'node:net'
import { App, LogLevel } from '@slack/bolt'

const [signingSecret = ''] = process.argv.slice(2)
const app = new App({
  signingSecret,
  authorize: async () => ({ botToken: 'xoxb-bare', botId: 'B0', botUserId: 'U0' }),
  logLevel: LogLevel.ERROR,
  convoStore: false,
})
app.view('check-in', async ({ ack }) => ack())
app.command('/today', async ({ ack }) => ack())
const server = await app.start({ port: 0, host: '127.0.0.1' })
process.send?.({ port: ((server as { address(): AddressInfo | null }).address() as AddressInfo).port })
process.on('message', () => process.send?.({ rss: process.memoryUsage().rss }))
