import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { runningClock } from '../rehearsal/clock.ts'
import { openWorkspace } from '../rehearsal/workspace.ts'
import { lowdbStore } from '../stores/lowdb.ts'
import {
  accountOf,
  athleteOf,
  botToken,
  fillClinic,
  signingSecret,
  today,
  tomorrowMorning,
} from './bench-clinic.ts'
import { type Row, reaches, under } from './bench-row.ts'
import { startChild } from './child.ts'
import { submissionOf } from './filled-form.ts'
import { liveSeason, type Season } from './season.ts'
import { atOnce, signedPoster } from './signed-post.ts'

const athletes = 8000
const warmUp = 500
const historyDays = 30

/** Check-ins over signed HTTP, committed and synced, beside the framework that only acknowledges the same forms. */
export async function rows(): Promise<Row[]> {
  const season = await liveSeason(historyDays, today())
  const folder = await mkdtemp(join(tmpdir(), 'sanderling-bench-'))
  const workspace = await openWorkspace({ signingSecret, botToken, clock: runningClock() })
  try {
    const store = await lowdbStore(folder)
    await fillClinic(store, season, { count: athletes, open: true, dueAt: tomorrowMorning() })
    await store.close()
    const bare = await startChild('./bare-app.ts', [signingSecret])
    const bareRate = await load(bare.url, season, { from: 0, count: 4000, many: 16 })
    await bare.kill()
    const settings = {
      botToken,
      signingSecret,
      port: 0,
      host: '127.0.0.1',
      dataFolder: folder,
      sharedFolder: 'shared',
    }
    const bot = await startChild('./loopback-bot.ts', [
      JSON.stringify({ ...settings, apiUrl: workspace.apiUrl, wakeUp: true }),
    ])
    const ours = await load(bot.url, season, { from: 0, count: 4000, many: 16 })
    const crowded = await load(bot.url, season, { from: 4000, count: 4000, many: 50 })
    await bot.kill()
    return [
      reaches(
        'check-in over signed HTTP, committed and synced, 16 at a time | the framework only acknowledging',
        ours.perSecond,
        bareRate.perSecond,
        0.6,
      ),
      under(
        'p99 from request to acknowledgement, 50 at a time | what the platform allows',
        crowded.p99Ms,
        250,
        {
          unit: 'ms',
          reference: 3000,
        },
      ),
    ]
  } finally {
    await workspace.close()
    await rm(folder, { recursive: true, force: true })
  }
}

/** Sends one check-in for each athlete of a range; the first few hundred only warm up. */
async function load(
  url: string,
  season: Season,
  range: { readonly from: number; readonly count: number; readonly many: number },
): Promise<{ perSecond: number; p99Ms: number }> {
  const { from, count, many } = range
  const poster = signedPoster(url, signingSecret, many)
  const forms = Array.from({ length: count }, (_, i) =>
    poster.signed(
      submissionOf(season.form, accountOf(from + i), { athlete: athleteOf(from + i), day: today() }),
    ),
  )
  const took: number[] = []
  let began = 0
  await atOnce(many, async (i) => {
    const form = forms[i]
    if (!form) return false
    if (i === warmUp) began = performance.now()
    const sentAt = performance.now()
    const answer = await poster.send(form)
    if (answer.status !== 200 || answer.body.includes('errors'))
      throw new Error(`${answer.status} ${answer.body}`)
    if (i >= warmUp) took.push(performance.now() - sentAt)
    return true
  })
  const seconds = (performance.now() - began) / 1000
  poster.close()
  const p99Ms = took.toSorted((a, b) => a - b)[Math.floor(took.length * 0.99)] ?? 0
  return { perSecond: (count - warmUp) / seconds, p99Ms }
}
