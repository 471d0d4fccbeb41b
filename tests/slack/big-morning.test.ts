import { afterAll, beforeAll, expect, test } from 'vitest'
import { receive, receiveForClinic } from '../../src/desk/intake.ts'
import { enrolment, type Player } from '../../src/rehearsal/cast.ts'
import { type ClinicAtWork, openClinic } from './clinic.ts'

const many = 500
const promptText = 'Good morning. Your check-in is ready.'
const planText = 'Your plan for today is here.'
let clinic: ClinicAtWork
beforeAll(async () => {
  clinic = await openClinic([])
  for (let n = 0; n < many; n += 1) await enrol(n)
  await sendUntil('2026-03-16T06:38:00.000Z')
  clinic.clock.pushTo('2026-03-17T06:59:55.000Z')
}, 180_000)
afterAll(() => clinic.close())

/** Every second athlete gets up five minutes later; those who get up first run first. */
const promptAtOf = (n: number) => (n % 2 === 0 ? '07:05' : '07:00')
const accountOf = (n: number) => `U1A${String(n).padStart(4, '0')}`
const numberOf = (account: string) => Number(account.slice(3))
const episode = {
  site: 'medial tibia',
  side: 'left',
  onsetDay: '2026-02-12',
  clearedUntil: '2026-04-12',
} as const

async function enrol(n: number): Promise<void> {
  const account = accountOf(n)
  const athlete: Player = {
    id: `a${n}`,
    name: `Athlete ${n}`,
    role: 'athlete',
    account,
    timeZone: 'Europe/Lisbon',
  }
  const { id, name, timeZone } = athlete
  clinic.workspace.people.add({ id: account, name, timeZone })
  const person = { id, name, roles: ['athlete'], chatUser: account, timeZone, active: true }
  const lead = { id: 'sunniva', roles: ['clinic-lead' as const] }
  await receiveForClinic(clinic.bot.desk, lead, { kind: 'person', person })
  for (const submission of enrolment(athlete, episode)) {
    const wakes = submission.kind === 'enrolment' ? { promptAt: promptAtOf(n) } : {}
    const by = { id: 'iben', roles: ['therapist' as const] }
    const outcome = await receive(clinic.bot.desk, by, { ...submission, ...wakes })
    if ('refused' in outcome) throw new Error(outcome.words)
  }
}

async function checksIn(n: number): Promise<void> {
  const answers = { worstPain: 0, morningPain: 0, swelling: 'no', signs: { always: [], bone: [] } }
  const submission = { kind: 'check-in', athlete: `a${n}`, day: '2026-03-17', answers }
  const outcome = await receive(clinic.bot.desk, { id: `a${n}`, roles: ['athlete'] }, submission)
  if ('refused' in outcome) throw new Error(outcome.words)
}

/** Lets the clock run in steps of five seconds, with what is sent in each. */
async function sendUntil(instant: string): Promise<void> {
  while (clinic.clock.now() < instant) {
    clinic.clock.pushBy({ seconds: 5 })
    await clinic.bot.round()
    await clinic.settle()
  }
}

/** Somebody else uses up what the app may post in this minute: from now on the platform says no. */
async function useUpTheMinute(): Promise<void> {
  for (let n = 0; n < 600; n += 1) {
    const answer = await fetch(`${clinic.workspace.apiUrl}chat.postMessage`, {
      method: 'POST',
      headers: { authorization: 'Bearer xoxb-test', 'content-type': 'application/json' },
      body: JSON.stringify({ channel: accountOf(n % many), text: 'From another process of this app.' }),
    })
    await answer.text()
    if (answer.status === 429) return
  }
  throw new Error('the minute was not used up')
}

const since = (from: number, text: string) =>
  clinic.workspace.calls
    .slice(from)
    .filter((call) => call.method === 'chat.postMessage' && call.outcome === 'ok')
    .filter((call) => (call.arguments as { text?: string }).text === text)
    .map((call) => String((call.arguments as { channel?: string }).channel))
const limited = (from: number) =>
  clinic.workspace.calls.slice(from).filter((call) => call.outcome === 'ratelimited').length

test('five hundred athletes are asked, each once and paced, while the platform limits the app in the middle of it', async () => {
  const from = clinic.workspace.calls.length
  await sendUntil('2026-03-17T07:00:40.000Z')
  expect(since(from, promptText).length, 'the morning is under way').toBeGreaterThan(20)
  await useUpTheMinute()
  const ours = clinic.workspace.calls.length
  await sendUntil('2026-03-17T07:20:00.000Z')
  expect(limited(ours), 'the platform did say no to the bot').toBeGreaterThan(0)
  expect(limited(ours), 'and was not asked again and again').toBeLessThan(20)
  const asked = since(from, promptText)
  expect(asked).toHaveLength(many)
  expect(new Set(asked).size).toBe(many)
  const turns = asked.map((account) => promptAtOf(numberOf(account)))
  expect(turns, 'whoever gets up first hears first').toEqual(turns.toSorted())
  expect(await clinic.bot.desk.store.waiting()).toBe(0)
}, 300_000)

test('their plans go out in the order in which they checked in, each once, under the same limits', async () => {
  const from = clinic.workspace.calls.length
  const inOrder = Array.from({ length: many }, (_, n) => (n * 7) % many)
  for (const n of inOrder) await checksIn(n)
  await sendUntil('2026-03-17T07:20:30.000Z')
  await useUpTheMinute()
  const ours = clinic.workspace.calls.length
  await sendUntil('2026-03-17T07:32:00.000Z')
  expect(limited(ours)).toBeGreaterThan(0)
  expect(limited(ours)).toBeLessThan(20)
  const told = since(from, planText).map(numberOf)
  expect(told).toHaveLength(many)
  expect(new Set(told).size).toBe(many)
  const late = told.filter((n, i) => Math.abs(inOrder.indexOf(n) - i) > 20)
  expect(late, 'nobody is overtaken by more than what was under way together').toEqual([])
  expect(await clinic.bot.desk.store.waiting()).toBe(0)
}, 300_000)
