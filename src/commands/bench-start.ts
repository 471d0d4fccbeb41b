import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { runningClock } from '../rehearsal/clock.ts'
import { openWorkspace } from '../rehearsal/workspace.ts'
import { lowdbStore } from '../stores/lowdb.ts'
import { accountOf, botToken, fillClinic, signingSecret, today, tomorrowMorning } from './bench-clinic.ts'
import { type Row, under } from './bench-row.ts'
import { startChild } from './child.ts'
import { commandOf } from './filled-form.ts'
import { liveSeason } from './season.ts'
import { signedPoster } from './signed-post.ts'

const closed = 9000
const open = 1000
const rounds = 3

/** From the start of the process to its first answer, and what it holds in memory then. */
export async function rows(): Promise<Row[]> {
  const folder = await mkdtemp(join(tmpdir(), 'sanderling-bench-'))
  const workspace = await openWorkspace({ signingSecret, botToken, clock: runningClock() })
  try {
    const store = await lowdbStore(folder)
    await fillClinic(store, await liveSeason(30, today()), { count: closed, open: false, dueAt: null })
    const long = { count: open, from: closed, open: true, dueAt: tomorrowMorning() }
    await fillClinic(store, await liveSeason(120, today()), long)
    await store.close()
    const settings = {
      botToken,
      signingSecret,
      port: 0,
      host: '127.0.0.1',
      dataFolder: folder,
      sharedFolder: 'shared',
    }
    const argv = [JSON.stringify({ ...settings, apiUrl: workspace.apiUrl, wakeUp: true })]
    const bare: Start[] = []
    const ours: Start[] = []
    // In turns, so that whatever else the machine does falls on both.
    for (let i = 0; i < rounds; i += 1) {
      bare.push(await firstAnswer('./bare-app.ts', [signingSecret]))
      ours.push(await firstAnswer('./loopback-bot.ts', argv))
    }
    const best = (starts: readonly Start[], what: keyof Start) =>
      Math.min(...starts.map((start) => start[what]))
    return [
      under(
        `start with ${closed + open} charts (${open} open, 120 days) to the first answer, beside the framework alone`,
        best(ours, 'seconds'),
        3,
        { unit: 's', reference: best(bare, 'seconds'), times: 4 },
      ),
      under('memory at rest with the same, beside the framework alone', best(ours, 'rssMib'), 300, {
        unit: 'MiB',
        reference: best(bare, 'rssMib'),
      }),
    ]
  } finally {
    await workspace.close()
    await rm(folder, { recursive: true, force: true })
  }
}

type Start = { readonly seconds: number; readonly rssMib: number }

async function firstAnswer(file: string, argv: readonly string[]): Promise<Start> {
  const began = performance.now()
  const child = startChild(file, argv)
  const poster = signedPoster(await child.listening, signingSecret, 1)
  const answer = await poster.post(commandOf('/today', accountOf(closed), 'http://127.0.0.1:9/'))
  const seconds = (performance.now() - began) / 1000
  poster.close()
  if (answer.status !== 200) throw new Error(`${file} answered ${answer.status}`)
  await new Promise((resolve) => setTimeout(resolve, 3000))
  const rssMib = await child.rssMib()
  await child.kill()
  return { seconds, rssMib }
}
