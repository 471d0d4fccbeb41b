import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { WebClient } from '@slack/web-api'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { plusMinutes } from '../../src/chart/day.ts'
import type { Notice } from '../../src/chart/notices.ts'
import { clinicSubject } from '../../src/chart/roster.ts'
import { type Desk, openDesk } from '../../src/desk/desk.ts'
import { openLibrary } from '../../src/desk/library.ts'
import { emptyOutbox, nextSending } from '../../src/desk/outbox.ts'
import type { Face, Store } from '../../src/desk/ports.ts'
import { type PushedClock, pushedClock } from '../../src/rehearsal/clock.ts'
import { openWorkspace, type Workspace } from '../../src/rehearsal/workspace.ts'
import { slackFace } from '../../src/slack/face.ts'
import { opaque } from '../../src/slack/render.ts'
import { lowdbStore } from '../../src/stores/lowdb.ts'
import { quietLogger } from '../rehearsal/stage.ts'

const people = 200
const ordinary = 10_000
const callEvery = 40
const listEvery = 100
const start = '2026-03-16T06:30:00.000Z'
const botToken = 'xoxb-test'
const coaches = 'C1COACHES'

const folder = mkdtempSync(join(tmpdir(), 'sanderling-outbox-'))
const clock: PushedClock = pushedClock(start)
/** Every notice that was queued, in order. */
const queued: Notice[] = []
/** Keys of tries whose end nobody knew: only these may have been said twice, and only calls. */
const inDoubt = new Set<string>()
const restarts: string[] = []
let workspace: Workspace

beforeAll(async () => {
  workspace = await openWorkspace({ signingSecret: 'a-secret', botToken, clock })
  for (let i = 0; i < people; i += 1)
    workspace.people.add({ id: `U${i}`, name: `Person ${i}`, timeZone: 'UTC' })
  workspace.channels.add({ id: coaches, name: 'who-runs-today', members: ['U0'] })
  await playAll()
}, 170_000)

afterAll(async () => {
  await workspace.close()
  rmSync(folder, { recursive: true, force: true })
})

describe('over ten thousand notices through outages, slow and lost replies, limits and restarts', () => {
  test('the weather was as bad as it should be', () => {
    const { outage, lost, slow, limited } = workspace.faults.counts
    for (const count of [outage, lost, slow, limited]) expect(count).toBeGreaterThan(20)
    expect(restarts.length).toBeGreaterThan(10)
    expect(queued.length).toBeGreaterThan(10_000)
  })

  test('none is lost, and none but a call in doubt was said twice', () => {
    const said = timesSaid()
    const lost: string[] = []
    const doubled: string[] = []
    for (const { key, kind, surface } of queued) {
      const times = said.get(opaque(key)) ?? 0
      if (surface !== undefined) continue
      if (times === 0) lost.push(key)
      if (times > 1 && !(kind === 'call' && inDoubt.has(key))) doubled.push(`${key} ${times}`)
    }
    expect(lost).toEqual([])
    expect(doubled).toEqual([])
  })

  test("the coaches' list is one message, and shows what was last", () => {
    const lists = workspace.as('U0').messages(coaches)
    expect(lists).toHaveLength(1)
    const last = queued.findLast((notice) => notice.kind === 'list')
    expect(lists[0]?.metadata?.event_payload).toEqual({ key: opaque(last?.key ?? '') })
  })

  test('each person heard in the order in which it happened', () => {
    for (let i = 0; i < people; i += 1) {
      const keys = new Map(
        queued
          .filter(
            (notice) => notice.kind === 'prompt' && 'person' in notice.to && notice.to.person === `p${i}`,
          )
          .map((notice, place) => [opaque(notice.key), place]),
      )
      const heard = workspace
        .as(`U${i}`)
        .messages()
        .flatMap((message) => keys.get(String(message.metadata?.event_payload.key)) ?? [])
      expect(heard).toEqual([...heard].sort((a, b) => a - b))
    }
  })

  test('the pace was kept, in each conversation and all together', () => {
    const posts = workspace.calls.filter(
      (call) => call.method === 'chat.postMessage' && call.outcome === 'ok' && 'metadata' in call.arguments,
    )
    const prompts = posts.filter((call) => isPrompt(call.arguments.metadata))
    expect(mostWithin(60, prompts)).toBeLessThanOrEqual(240 + 20 * 3)
    for (let i = 0; i < people; i += 1) {
      const theirs = prompts.filter((call) => call.arguments.channel === `U${i}`)
      expect(mostWithin(1, theirs)).toBeLessThanOrEqual(5)
    }
    const updates = workspace.calls.filter((call) => call.method === 'chat.update')
    expect(mostWithin(60, updates)).toBeLessThanOrEqual(60)
  })

  test('a call did not wait behind the ten thousand: within a minute it was tried', () => {
    const firstTry = new Map<string, string>()
    for (const { method, at, arguments: given } of workspace.calls) {
      const key = keyIn(given.metadata)
      if (method === 'chat.postMessage' && key && !firstTry.has(key)) firstTry.set(key, at)
    }
    for (const { key, kind, queuedAt } of queued)
      if (kind === 'call')
        expect(firstTry.get(opaque(key)) ?? 'never', key).toMatch(
          new RegExp(`${queuedAt.slice(0, 16)}|${plusMinutes(queuedAt, 1).slice(0, 16)}`),
        )
  })
})

async function playAll(): Promise<void> {
  let { desk, crash, close } = await openBot()
  await desk.store.commit({ ...commit(clinicSubject, 0), entries: roster() })
  const minutes = () => (Date.parse(clock.now()) - Date.parse(start)) / 60_000
  for (let step = 1; !allQueued() || (await desk.store.waiting()) > 0; step += 1) {
    await queueSome(desk.store, step)
    await weather(step, minutes())
    if (step % 60 === 0) crash()
    await emptyOutbox(desk).catch((error) => {
      if (!(error instanceof Crash)) throw error
    })
    if (step % 60 === 0) {
      restarts.push(clock.now())
      await close()
      ;({ desk, crash, close } = await openBot())
    }
    const next = await nextSending(desk)
    const soon = plusMinutes(clock.now(), 2 / 60)
    clock.pushTo(next && next > soon ? next : soon)
    if (step > 5000) throw new Error(`still ${await desk.store.waiting()} after ${minutes()} minutes`)
  }
  await close()
}

/** The process ends here: what was sent is not written down. */
class Crash extends Error {}

async function openBot() {
  const store = await lowdbStore(folder)
  let crashing = false
  const mortal: Store = {
    ...store,
    settle: async (key, outcome) => {
      if (!crashing) return store.settle(key, outcome)
      inDoubt.add(key)
      throw new Crash()
    },
  }
  const library = openLibrary('shared')
  const face = watched(slackFace(clientOf(), library.setUpCard))
  const desk: Desk = openDesk({
    store: mortal,
    face,
    clock,
    library,
    clinic: library.clinic,
    report: () => {},
  })
  const crash = () => {
    crashing = true
  }
  return { desk, crash, close: store.close }
}

function clientOf(): WebClient {
  return new WebClient(botToken, {
    slackApiUrl: workspace.apiUrl,
    retryConfig: { retries: 0 },
    rejectRateLimitedCalls: true,
    timeout: 10_000,
    logger: quietLogger,
  })
}

function watched(face: Face): Face {
  return {
    ...face,
    deliver: async (told) => {
      const delivery = await face.deliver(told)
      if ('failed' in delivery && delivery.outcome === 'unknown') inDoubt.add(told.notice.key)
      return delivery
    },
  }
}

const allQueued = () => queued.length >= ordinary * 1.04

/** Prompts come faster than the platform takes them; calls and changes of the list come in between. */
async function queueSome(store: Store, step: number): Promise<void> {
  if (allQueued()) return
  const subject = `athlete-${step % 20}`
  const { length } = await store.read(subject)
  const queuedAt = clock.now()
  const notices = Array.from({ length: 20 }, (_, i): Notice => {
    const number = queued.length + i
    const person = { person: `p${number % people}` }
    const base = { key: `notice/${number}`, athlete: subject, queuedAt }
    if (number % listEvery === 7)
      return {
        ...base,
        kind: 'list',
        to: { place: 'coaches' },
        about: '2026-03-16',
        surface: 'list/2026-03-16',
      }
    return { ...base, kind: number % callEvery === 3 ? 'call' : 'prompt', to: person }
  })
  queued.push(...notices)
  await store.commit({ ...commit(subject, length), notices })
}

/** By the minute: an outage of one and of ten minutes, slow replies; and all the time lost replies and a busy neighbour. */
async function weather(step: number, minute: number): Promise<void> {
  const { faults } = workspace
  faults.outage((minute > 3 && minute < 4) || (minute > 20 && minute < 30))
  faults.slow(minute > 10 && minute < 11 ? 20 : 0)
  if (step % 25 === 0) faults.loseReply({ method: 'chat.postMessage', times: 3 })
  if (step % 40 === 20) faults.loseReply({ method: 'chat.update', times: 1 })
  if (step % 10 === 5) await neighbour(step)
}

/** Another part of the same app uses up what a few conversations take at once. */
async function neighbour(step: number): Promise<void> {
  const client = clientOf()
  const posts = Array.from({ length: 60 }, (_, i) => ({
    channel: `U${(step + (i % 12)) % people}`,
    text: 'hello',
  }))
  await Promise.allSettled(posts.map((post) => client.chat.postMessage(post)))
}

function roster() {
  const recordedAt = start
  const persons = Array.from({ length: people }, (_, i) => ({
    id: `person/${i}`,
    author: 'sunniva',
    recordedAt,
    kind: 'person',
    person: {
      id: `p${i}`,
      name: `Person ${i}`,
      roles: ['athlete'],
      chatUser: `U${i}`,
      timeZone: 'UTC',
      active: true,
    },
  }))
  const place = {
    id: 'place/1',
    author: 'sunniva',
    recordedAt,
    kind: 'place',
    place: 'coaches',
    channel: coaches,
  }
  return [...persons, place]
}

const commit = (subject: string, atLength: number) => ({
  subject,
  atLength,
  entries: [],
  notices: [],
  dueAt: null,
  open: true,
})

function timesSaid(): Map<string, number> {
  const said = new Map<string, number>()
  for (let i = 0; i < people; i += 1)
    for (const message of workspace.as(`U${i}`).messages()) {
      const key = String(message.metadata?.event_payload.key)
      said.set(key, (said.get(key) ?? 0) + 1)
    }
  return said
}

function keyIn(metadata: unknown): string | undefined {
  return (metadata as { event_payload?: { key?: string } } | undefined)?.event_payload?.key
}

let promptKeys: ReadonlySet<string> | undefined

function isPrompt(metadata: unknown): boolean {
  promptKeys ??= new Set(
    queued.filter((notice) => notice.kind === 'prompt').map((notice) => opaque(notice.key)),
  )
  return promptKeys.has(keyIn(metadata) ?? '')
}

/** The most calls in any stretch of so many seconds. */
function mostWithin(seconds: number, calls: readonly { readonly at: string }[]): number {
  const times = calls.map((call) => Date.parse(call.at))
  let most = 0
  let first = 0
  for (const [i, at] of times.entries()) {
    while (at - (times[first] ?? at) >= seconds * 1000) first += 1
    most = Math.max(most, i - first + 1)
  }
  return most
}
