// The real bot as a process of its own, for the benchmark and the torture: on loopback, on a clock that runs from when
// it is told.
import { pino } from 'pino'
import { startBot } from '../main.ts'
import { runningClock } from '../rehearsal/clock.ts'

const [text = '{}'] = process.argv.slice(2)
const { wakeUp, apiUrl, startsAt, ...settings } = JSON.parse(text)
const log = pino({ level: 'warn' }, process.stderr)
const { port } = await startBot(settings, { clock: runningClock(startsAt), log, apiUrl, wakeUp })
process.send?.({ port })
process.on('message', () => process.send?.({ rss: process.memoryUsage().rss }))
