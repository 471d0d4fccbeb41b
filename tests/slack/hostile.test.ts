import { afterAll, beforeAll, expect, test } from 'vitest'
import type { RawResponse } from '../../src/rehearsal/http-transport.ts'
import { checkInModal } from '../../src/slack/check-in.ts'
import { seeded } from '../science/seeded.ts'
import { type ClinicAtWork, fillMorning, openClinic } from './clinic.ts'
import { type Hostile, hostileRequests } from './hostile.ts'

const requests = 10_000
const atOnce = 8

let clinic: ClinicAtWork
const crashes: unknown[] = []
const noteCrash = (reason: unknown) => crashes.push(reason)

beforeAll(async () => {
  clinic = await openClinic(['mika', 'adaeze'])
  process.on('unhandledRejection', noteCrash)
})

afterAll(async () => {
  process.off('unhandledRejection', noteCrash)
  await clinic.close()
})

test('ten thousand malformed and forged requests end in a refusal: no write, no crash, no 5xx, nobody kept waiting', async () => {
  const { desk } = clinic.bot
  const before = await everything()
  const form = checkInModal(await desk.charts.read('mika'), '2026-03-16', await desk.team())
  const stock = hostileRequests(seeded(20261125), { form })
  const answers = new Map<string, number>()
  const wrong: string[] = []
  let sent = 0
  const sender = async () => {
    while (sent < requests) {
      sent += 1
      const request = stock.next().value as Hostile
      const answer = await clinic.workspace
        .raw(request.headers, request.body)
        .catch((error: Error) => error.name)
      const status = typeof answer === 'string' ? answer : answer.status
      answers.set(`${request.what} ${status}`, (answers.get(`${request.what} ${status}`) ?? 0) + 1)
      if (!isRefusal(answer))
        wrong.push(`${request.what}: ${status} for ${String(request.body).slice(0, 300)}`)
    }
  }
  await Promise.all(Array.from({ length: atOnce }, sender))
  await clinic.settle()
  expect(wrong.slice(0, 5)).toEqual([])
  expect(crashes).toEqual([])
  expect(await everything()).toEqual(before)
  expect(({} as { polluted?: unknown }).polluted).toBeUndefined()
  expect([...answers.keys()].filter((key) => key.startsWith('forged')).sort()).toEqual(['forged 401'])

  const mika = await fillMorning(clinic, 'mika')
  expect((await mika.submit()).closed, 'an honest check-in still gets in').toBe(true)
}, 120_000)

function isRefusal(answer: RawResponse | string): boolean {
  return typeof answer !== 'string' && [200, 400, 401, 413].includes(answer.status)
}

async function everything() {
  const { store } = clinic.bot.desk
  return { index: await store.index(), waiting: await store.waiting() }
}
