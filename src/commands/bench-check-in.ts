import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { coachesChannel } from '../rehearsal/cast.ts'
import { runningClock } from '../rehearsal/clock.ts'
import { openWorkspace, type Workspace } from '../rehearsal/workspace.ts'
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
import { type Row, reaches, shown, under } from './bench-row.ts'
import { startChild } from './child.ts'
import { submissionOf } from './filled-form.ts'
import { liveSeason, type Season } from './season.ts'
import { atOnce, signedPoster } from './signed-post.ts'

/** So many for each measurement; each athlete checks in once a day. */
const athletes = 1000
const historyDays = 10
/**
 * So many athletes warm our process up, each form sent three times over: about as many deliveries as the bare framework
 * gets. With the athletes that are measured their charts still fit in memory.
 */
const warmUp = 700
const mostListMs = 90_000

/**
 * Check-ins over signed HTTP, committed and synced, beside the framework that only acknowledges the same forms: of
 * athletes whose morning was just looked at, as it is when they answer their prompt, and of others.
 */
export async function rows(): Promise<Row[]> {
  const season = await liveSeason(historyDays, today())
  const folder = await mkdtemp(join(tmpdir(), 'sanderling-bench-'))
  const workspace = await openWorkspace({ signingSecret, botToken, clock: runningClock() })
  for (let i = 0; i < 4 * athletes; i += 1)
    workspace.people.add({ id: accountOf(i), name: `Athlete ${i}`, timeZone: 'UTC' })
  try {
    const store = await lowdbStore(folder)
    await fillClinic(store, season, { count: athletes, open: true, dueAt: `${today()}T00:00:00.000Z` })
    await fillClinic(store, season, {
      count: 3 * athletes,
      from: athletes,
      open: true,
      dueAt: tomorrowMorning(),
    })
    await store.close()
    const bare = startChild('./bare-app.ts', [signingSecret])
    await load(await bare.listening, season, { from: 0, count: 2 * athletes, many: 16 })
    const reference = await load(await bare.listening, season, { from: 0, count: athletes, many: 16 })
    await bare.kill()
    const settings = {
      botToken,
      signingSecret,
      port: 0,
      host: '127.0.0.1',
      dataFolder: folder,
      sharedFolder: 'shared',
    }
    const bot = startChild('./loopback-bot.ts', [
      JSON.stringify({ ...settings, apiUrl: workspace.apiUrl, wakeUp: true }),
    ])
    await load(await bot.listening, season, { from: 2 * athletes, count: warmUp, many: 16 })
    for (let again = 0; again < 2; again += 1)
      await load(await bot.listening, season, { from: 2 * athletes, count: warmUp, many: 16, refused: true })
    await listPosted(workspace)
    const asked = await load(await bot.listening, season, { from: 0, count: athletes, many: 16 })
    const cold = await load(await bot.listening, season, { from: athletes, count: athletes, many: 16 })
    const crowded = await load(await bot.listening, season, { from: 3 * athletes, count: athletes, many: 50 })
    await bot.kill()
    const beside = 'beside the framework that only acknowledges'
    return [
      reaches(
        `check-in over signed HTTP, committed and synced, 16 at a time, ${beside}`,
        asked.perSecond,
        reference.perSecond,
        0.6,
      ),
      shown('the same, of athletes whose charts have to be read first', cold.perSecond),
      under(
        'p99 from request to acknowledgement, 50 at a time, beside what the platform allows',
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

/**
 * Waits for the coaches' list of the day: it goes out before the first check-ins of a morning, and is the one piece of
 * work that reads every chart.
 */
async function listPosted({ calls }: Workspace): Promise<void> {
  const until = performance.now() + mostListMs
  while (
    !calls.some((call) => call.method === 'chat.postMessage' && call.arguments.channel === coachesChannel.id)
  ) {
    if (performance.now() > until) throw new Error('no list was posted')
    await new Promise((resolve) => setTimeout(resolve, 100))
  }
}

/** Sends one check-in for each athlete of a range. A first load, unmeasured, lets both processes warm up. */
async function load(
  url: string,
  season: Season,
  range: { readonly from: number; readonly count: number; readonly many: number; readonly refused?: true },
): Promise<{ perSecond: number; p99Ms: number }> {
  const { from, count, many, refused = false } = range
  const poster = signedPoster(url, signingSecret, many)
  const forms = Array.from({ length: count }, (_, i) =>
    poster.signed(
      submissionOf(season.form, accountOf(from + i), { athlete: athleteOf(from + i), day: today() }),
    ),
  )
  const took: number[] = []
  const began = performance.now()
  await atOnce(many, async (i) => {
    const form = forms[i]
    if (!form) return false
    const sentAt = performance.now()
    const answer = await poster.send(form)
    if (answer.status !== 200 || answer.body.includes('errors') !== refused)
      throw new Error(`${answer.status} ${answer.body}`)
    took.push(performance.now() - sentAt)
    return true
  })
  const seconds = (performance.now() - began) / 1000
  poster.close()
  const p99Ms = took.toSorted((a, b) => a - b)[Math.floor(took.length * 0.99)] ?? 0
  return { perSecond: count / seconds, p99Ms }
}
