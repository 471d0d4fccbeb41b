import { type ChildProcess, spawn } from 'node:child_process'
import { WebClient } from '@slack/web-api'
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest'
import { plusMinutes } from '../../src/chart/day.ts'
import { clinicSubject } from '../../src/chart/roster.ts'
import { openDesk } from '../../src/desk/desk.ts'
import { receive } from '../../src/desk/intake.ts'
import { openLibrary } from '../../src/desk/library.ts'
import { emptyOutbox, nextSending } from '../../src/desk/outbox.ts'
import { makeRounds } from '../../src/desk/rounds.ts'
import { cast, enrolment, player } from '../../src/rehearsal/cast.ts'
import { pushedClock } from '../../src/rehearsal/clock.ts'
import { openWorkspace, type Workspace } from '../../src/rehearsal/workspace.ts'
import { slackFace } from '../../src/slack/face.ts'
import { postgresStore } from '../../src/stores/postgres.ts'
import { type Server, startPostgres } from './postgres-server.ts'

const athletes = 60
const enrolledAt = '2026-03-15T10:00:00.000Z'
const morning = '2026-03-16T06:30:00.000Z'
const clock = pushedClock(enrolledAt)

let server: Server
let workspace: Workspace
const children: ChildProcess[] = []

beforeAll(async () => {
  server = await startPostgres()
  workspace = await openWorkspace({ signingSecret: 'a-secret', botToken: 'xoxb-test', clock })
  // What is tried here is who sends; how fast one may is tried elsewhere.
  workspace.faults.rateLimits(false)
  for (let i = 0; i < athletes; i += 1)
    workspace.people.add({ id: accountOf(i), name: `Runner ${i}`, timeZone: 'UTC' })
})
afterEach(() => {
  for (const child of children.splice(0)) child.kill('SIGKILL')
})
afterAll(async () => {
  await workspace.close()
  await server.stop()
})

test('three machines make the same morning’s rounds; one dies in its round, one in a delivery: everybody is asked once', async () => {
  const url = await server.database()
  const { desk, close } = await clinicOn(url)
  clock.pushTo(morning)
  const [inRound, inDelivery, survivor] = await Promise.all([
    machine(url, 'in its round'),
    machine(url, 'in a delivery'),
    machine(url),
  ])
  // The others go on in the middle of what it leaves. A process that is killed has no code.
  inRound.begin()
  expect(await inRound.ended).toBe(null)
  for (const { begin } of [inDelivery, survivor]) begin()
  expect(await Promise.all([inDelivery.ended, survivor.ended])).toEqual([null, 0])

  // Whoever is left takes over what the dead held, once their hold has run out.
  clock.pushTo(plusMinutes(morning, 3))
  await makeRounds(desk)
  for (let next: string | null = clock.now(); next; next = await nextSending(desk)) {
    clock.pushTo(next > clock.now() ? next : plusMinutes(clock.now(), 1 / 60))
    await emptyOutbox(desk)
  }
  const asked = Array.from({ length: athletes }, (_, i) =>
    workspace
      .as(accountOf(i))
      .messages()
      .filter(({ text }) => text.includes('Your check-in is ready')),
  )
  expect(asked.map(({ length }) => length)).toEqual(Array.from({ length: athletes }, () => 1))
  for (let i = 0; i < athletes; i += 1) {
    const chart = await desk.charts.read(`runner-${i}`)
    expect(chart.entries.filter(({ kind }) => kind === 'prompt')).toHaveLength(1)
  }
  expect(await desk.store.waiting()).toBe(0)
  await close()
}, 120_000)

const accountOf = (i: number) => `U${i}RUNNER`

async function clinicOn(url: string) {
  const library = openLibrary('shared')
  const store = await postgresStore(url)
  const client = new WebClient('xoxb-test', { slackApiUrl: workspace.apiUrl, retryConfig: { retries: 0 } })
  const face = slackFace(client, library.setUpCard)
  const desk = openDesk({ store, face, clock, library, clinic: library.clinic, report: () => {} })
  const staff = cast.filter(({ role }) => role !== 'athlete')
  const people = [
    ...staff.map(({ id, name, role, account }) => ({ id, name, roles: [role], chatUser: account })),
    ...Array.from({ length: athletes }, (_, i) => ({
      id: `runner-${i}`,
      name: `Runner ${i}`,
      roles: ['athlete' as const],
      chatUser: accountOf(i),
    })),
  ]
  const entries = people.map((person) => ({
    id: `person/${person.id}`,
    author: 'sunniva',
    recordedAt: enrolledAt,
    kind: 'person',
    person: { ...person, timeZone: 'UTC', active: true },
  }))
  const place = { kind: 'place', place: 'coaches', channel: 'C1COACHES' }
  const channel = { id: 'place/1', author: 'sunniva', recordedAt: enrolledAt, ...place }
  await store.commit({
    subject: clinicSubject,
    entries: [...entries, channel],
    notices: [],
    atLength: 0,
    dueAt: null,
    open: true,
  })
  const episode = {
    site: 'distal medial tibia',
    side: 'left',
    onsetDay: '2026-02-12',
    clearedUntil: '2026-04-12',
  } as const
  for (let i = 0; i < athletes; i += 1)
    for (const one of enrolment({ ...player('mika'), id: `runner-${i}`, timeZone: 'UTC' }, episode))
      expect(await receive(desk, { id: 'iben', roles: ['therapist'] }, one)).not.toHaveProperty('refused')
  return { desk, close: store.close }
}

/** A process of its own that waits for a word before it begins. */
async function machine(url: string, dies = '') {
  const script = new URL('round.script.ts', import.meta.url).pathname
  const args = ['--import', 'tsx', script, url, workspace.apiUrl, morning, dies]
  const child = spawn(process.execPath, args, { stdio: ['pipe', 'pipe', 'inherit'] })
  children.push(child)
  const ended = new Promise<number | null>((resolve) => child.once('close', resolve))
  await new Promise((resolve) => child.stdout.once('data', resolve))
  return { ended, begin: () => child.stdin.write('go\n') }
}
