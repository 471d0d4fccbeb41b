// The real bot as a process of its own, for the benchmark and the torture: on loopback, with the system's clock.
import { pino } from 'pino'
import { startBot, systemClock } from '../main.ts'

const [text = '{}'] = process.argv.slice(2)
const { wakeUp, apiUrl, ...settings } = JSON.parse(text)
const log = pino({ level: 'warn' }, process.stderr)
const { port } = await startBot(settings, { clock: systemClock, log, apiUrl, wakeUp })
process.send?.({ port })
process.on('message', () => process.send?.({ rss: process.memoryUsage().rss }))
