import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { firstBreak } from '../chart/chain.ts'
import { type Day, plusDays } from '../chart/day.ts'
import { cast, player } from '../rehearsal/cast.ts'
import { type PushedClock, runningClock } from '../rehearsal/clock.ts'
import { openWorkspace, type Workspace } from '../rehearsal/workspace.ts'
import { uncovered } from '../stores/cover.ts'
import { lowdbStore } from '../stores/lowdb.ts'
import { verifyFolder } from '../stores/mend.ts'
import { accountOf, athleteOf, botToken, fillClinic, signingSecret } from './bench-clinic.ts'
import { startChild } from './child.ts'
import { pressOf, submissionOf } from './filled-form.ts'
import { liveSeason, type Season } from './season.ts'
import { type Poster, signedPoster } from './signed-post.ts'

/** What the sender saw accepted: an entry of this kind must be in the chart once, for this day or this call. */
type Accepted = { readonly athlete: string; readonly kind: string; readonly of: string }

const hands = 4
const athletes = 24
const firstDay = '2026-03-16'

/**
 * Rounds of start, send, kill -9, look, on one data folder: check-ins, runs and acknowledged calls over signed HTTP.
 * Every round is another Monday, on which everybody may check in again. Gives back what is wrong.
 */
export async function tortureBot(rounds: number, out: (line: string) => void): Promise<string[]> {
  const folder = await mkdtemp(join(tmpdir(), 'sanderling-torture-'))
  const clock = runningClock(`${firstDay}T06:00:00.000Z`)
  const workspace = await openWorkspace({ signingSecret, botToken, clock })
  const accepted: Accepted[] = []
  const faults: string[] = []
  try {
    const season = await liveSeason(1, firstDay)
    const store = await lowdbStore(folder)
    // Besides those who check in every round, one for each round who raises a red flag.
    const clinic = { count: athletes + rounds + 1, open: true, dueAt: `${firstDay}T06:30:00.000Z` }
    await fillClinic(store, season, clinic)
    await store.close()
    for (const { account, name, timeZone } of cast) workspace.people.add({ id: account, name, timeZone })
    for (let i = 0; i < clinic.count; i += 1)
      workspace.people.add({ id: accountOf(i), name: athleteOf(i), timeZone: 'UTC' })
    for (let round = 1; round <= rounds && faults.length === 0; round += 1) {
      await untilKilled({ folder, workspace, clock, season, round, accepted })
      faults.push(...(await wrongIn(folder, accepted)).map((fault) => `round ${round}: ${fault}`))
      if (round % 25 === 0) out(`${round} rounds: ${accepted.length} acknowledged`)
    }
    faults.push(...doublesIn(workspace))
    faults.push(...unshown(accepted))
    const { entries, charts } = await contentOf(folder)
    const counts = `${accepted.length} acknowledged, ${entries.length} entries in ${charts} charts`
    out(`${rounds} kills: ${counts}, ${faults.length} faults`)
    return faults
  } finally {
    await workspace.close()
    await rm(folder, { recursive: true, force: true })
  }
}

/** A kind of submission that was never acknowledged was never put to the test. */
function unshown(accepted: readonly Accepted[]): string[] {
  const kinds = ['check-in', 'session-done', 'call-acknowledged'] as const
  const never = kinds.filter((kind) => !accepted.some((one) => one.kind === kind))
  return never.map((kind) => `no ${kind} was acknowledged: this showed nothing of them`)
}

type Round = {
  readonly folder: string
  readonly workspace: Workspace
  /** The platform's; it tells the same time as the bot's. */
  readonly clock: PushedClock
  readonly season: Season
  readonly round: number
  readonly accepted: Accepted[]
}

/** Two rounds of three die some time after they listened; the third dies at any moment, its start included. */
async function untilKilled(at: Round): Promise<void> {
  const day = plusDays(firstDay, 7 * (at.round - 1))
  const startsAt = `${day}T10:00:00.000Z`
  at.clock.pushTo(startsAt)
  const settings = {
    botToken,
    signingSecret,
    port: 0,
    host: '127.0.0.1',
    dataFolder: at.folder,
    sharedFolder: 'shared',
  }
  const { apiUrl } = at.workspace
  const child = startChild('./loopback-bot.ts', [
    JSON.stringify({ ...settings, apiUrl, startsAt, wakeUp: true }),
  ])
  const sending = child.listening.then((url) => sendAll(at, url, day)).catch(() => {})
  if (at.round % 3 !== 0) await child.listening
  await new Promise((resolve) => setTimeout(resolve, Math.random() * (at.round % 3 === 0 ? 1500 : 300)))
  await child.kill()
  await sending
}

/** Several hands at a time; each ends when its connection breaks. */
async function sendAll(at: Round, url: string, day: Day): Promise<void> {
  const poster = signedPoster(url, signingSecret, hands)
  const hand = async (first: number) => {
    for (let i = first; i < athletes; i += hands) await oneMorning(at, poster, { number: i, day })
  }
  const flagged = oneAlarm(at, poster, { number: athletes + at.round - 1, day })
  await Promise.allSettled([flagged, ...Array.from({ length: hands }, (_, first) => hand(first))])
  poster.close()
}

type Whose = { readonly number: number; readonly day: Day }

async function oneMorning(
  { season, accepted }: Round,
  poster: Poster,
  { number, day }: Whose,
): Promise<void> {
  const athlete = athleteOf(number)
  const about = { athlete, day }
  if (await isSaved(poster, submissionOf(season.form, accountOf(number), about)))
    accepted.push({ athlete, kind: 'check-in', of: day })
  if (await isSaved(poster, submissionOf(season.log, accountOf(number), about)))
    accepted.push({ athlete, kind: 'session-done', of: day })
}

/** A red flag, and the therapist who takes the call. */
async function oneAlarm(at: Round, poster: Poster, { number, day }: Whose): Promise<void> {
  const athlete = athleteOf(number)
  const ticks = { 'signs-always': 'chest-pain' }
  const form = submissionOf(at.season.form, accountOf(number), { athlete, day }, ticks)
  if (!(await isSaved(poster, form))) return
  at.accepted.push({ athlete, kind: 'check-in', of: day })
  const escalation = `escalation/check-in/${athlete}/${day}`
  const nowhere = at.workspace.apiUrl.replace('/api/', '/reply/nowhere')
  const { status } = await poster.post(
    pressOf('acknowledge', player('iben').account, { athlete, escalation }, nowhere),
  )
  if (status === 200) at.accepted.push({ athlete, kind: 'call-acknowledged', of: escalation })
}

/** A form closes with an empty answer; anything else is a refusal. */
async function isSaved(poster: Poster, form: string): Promise<boolean> {
  const { status, body } = await poster.post(form)
  return status === 200 && body === ''
}

async function wrongIn(folder: string, accepted: readonly Accepted[]): Promise<string[]> {
  const verified = await verifyFolder(folder, uncovered)
  const faults = verified.flatMap(({ subject, wrong }) =>
    wrong ? [`${subject}, line ${wrong.line}: ${wrong.why}`] : [],
  )
  if (faults.length > 0) return faults
  const { entries, broken, ids } = await contentOf(folder)
  faults.push(...broken.map((subject) => `the hashes of ${subject} do not fit`))
  const seen = new Set<string>()
  for (const id of ids) if (seen.size === seen.add(id).size) faults.push(`${id} is there twice`)
  const counts = new Map<string, number>()
  for (const entry of entries) counts.set(entry, (counts.get(entry) ?? 0) + 1)
  for (const { athlete, kind, of } of accepted) {
    const count = counts.get(`${athlete} ${kind} ${of}`) ?? 0
    if (count !== 1) faults.push(`${kind} of ${athlete} for ${of} is there ${count} times`)
  }
  return faults
}

/** Every entry through an ordinary start, as `<athlete> <kind> <day or call>`. */
async function contentOf(folder: string) {
  const store = await lowdbStore(folder, { onDamage: 'refuse' })
  const entries: string[] = []
  const ids: string[] = []
  const broken: string[] = []
  const index = await store.index()
  for (const { subject } of index) {
    const chart = await store.read(subject)
    if (firstBreak(chart) !== undefined) broken.push(subject)
    for (const { id, kind, day, escalation } of chart) {
      ids.push(`${subject} ${id}`)
      entries.push(`${subject} ${kind} ${day ?? escalation}`)
    }
  }
  await store.close()
  return { entries, ids, broken, charts: index.length }
}

/** Everything but a call is said once, whatever was killed between saying and noting it. */
function doublesIn(workspace: Workspace): string[] {
  const said = new Map<string, number>()
  for (const { method, outcome, arguments: given } of workspace.calls) {
    const key = (given.metadata as { event_payload?: { key?: string } } | undefined)?.event_payload?.key
    const isCall = String(given.text).startsWith('You are being called')
    if (method === 'chat.postMessage' && outcome === 'ok' && key && !isCall)
      said.set(`${key} (${given.text})`, (said.get(`${key} (${given.text})`) ?? 0) + 1)
  }
  return [...said].filter(([, times]) => times > 1).map(([key]) => `notice ${key} was said more than once`)
}
