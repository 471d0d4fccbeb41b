import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { plusMinutes } from '../../src/chart/day.ts'
import { type Desk, openDesk } from '../../src/desk/desk.ts'
import { receive, receiveForClinic } from '../../src/desk/intake.ts'
import { openLibrary } from '../../src/desk/library.ts'
import { emptyOutbox } from '../../src/desk/outbox.ts'
import type { Delivery, Face, Told } from '../../src/desk/ports.ts'
import { makeRounds } from '../../src/desk/rounds.ts'
import { emptyMemory, type Memory, memoryStore } from '../../src/stores/memory.ts'
import { people } from '../rules/clinic-of-tests.ts'

const library = openLibrary('shared')
const lead = { id: 'sunniva', roles: ['clinic-lead' as const] }
const therapist = { id: 'iben', roles: ['therapist' as const] }
const day = '2026-05-12'

/** A clinic on a pushed clock, with a face that writes down what it delivers and can be out of order. */
async function openClinic(memory: Memory = emptyMemory()) {
  const weather = { now: `${day}T08:00:00.000Z`, down: false, gone: new Set<string>() }
  const heard: string[] = []
  const standing = new Set<string>()
  const deliver = async ({ notice }: Told): Promise<Delivery> => {
    const to = 'person' in notice.to ? notice.to.person : notice.to.place
    if (weather.down) return { failed: 'no connection', outcome: 'not sent' }
    if (weather.gone.has(to)) return { failed: 'account_inactive', outcome: 'never' }
    heard.push(`${notice.kind} to ${to}`)
    standing.add(notice.key)
    return { sent: { channel: `D${to}`, ts: String(heard.length) } }
  }
  const find: Face['find'] = async ({ notice }) =>
    standing.has(notice.key) ? { channel: 'D', ts: '1' } : 'absent'
  const open = (): Desk =>
    openDesk({
      store: memoryStore(memory),
      face: { deliver, find },
      clock: { now: () => weather.now },
      library,
      clinic: library.clinic,
      report: () => {},
    })
  let desk = open()
  const minute = async () => {
    await makeRounds(desk)
    await emptyOutbox(desk)
  }
  const advance = async (minutes: number) => {
    for (let n = 0; n < minutes; n += 1) {
      weather.now = plusMinutes(weather.now, 1)
      await minute()
    }
  }
  const chart = () => desk.charts.read('ada')
  const calls = async () => (await chart()).escalations[0]?.calls.map((made) => made.person) ?? []
  return {
    weather,
    heard,
    advance,
    minute,
    chart,
    calls,
    desk: () => desk,
    restart: () => {
      desk = open()
    },
  }
}

async function withUrgentCall() {
  const clinic = await openClinic()
  const { desk } = clinic
  clinic.weather.now = '2026-05-10T08:00:00.000Z'
  for (const person of people)
    expect(await receiveForClinic(desk(), lead, { kind: 'person', person })).toEqual({ done: true })
  const place = { kind: 'place', place: 'coaches', channel: 'C1COACHES' }
  expect(await receiveForClinic(desk(), lead, place)).toEqual({ done: true })
  const enrolment = {
    kind: 'enrolment',
    athlete: 'ada',
    timeZone: 'UTC',
    promptAt: '06:30',
    therapist: 'iben',
    cover: 'ravi',
    coaches: [],
    consentToCoach: false,
    precautions: [],
  }
  const episode = {
    kind: 'episode',
    athlete: 'ada',
    diagnosis: 'invented',
    tissue: 'tendon',
    site: 'heel',
    side: 'left',
    onsetDay: '2026-04-01',
  }
  for (const submission of [enrolment, episode])
    expect(await receive(desk(), therapist, submission)).not.toHaveProperty('refused')
  clinic.weather.now = `${day}T08:00:00.000Z`
  await clinic.minute()
  return clinic
}

const ring = (clinic: Awaited<ReturnType<typeof withUrgentCall>>) =>
  receive(
    clinic.desk(),
    { id: 'ada', roles: ['athlete'] },
    {
      kind: 'check-in',
      athlete: 'ada',
      day,
      answers: { worstPain: 0, morningPain: 0, swelling: 'no', signs: { always: ['cannot-walk'] } },
    },
  )

const press = (clinic: Awaited<ReturnType<typeof withUrgentCall>>, id: string) =>
  receive(
    clinic.desk(),
    { id, roles: ['therapist'] },
    { kind: 'call-acknowledged', athlete: 'ada', escalation: `escalation/check-in/ada/${day}` },
  )

test('sent, delivered and acknowledged are written down as three things, in this order', async () => {
  const clinic = await withUrgentCall()
  await ring(clinic)
  expect((await clinic.chart()).escalations[0]?.sent.size).toBe(0)
  await emptyOutbox(clinic.desk())
  const [e] = (await clinic.chart()).escalations
  expect([e?.sent.has(1), e?.delivered.has(1), e?.acknowledged]).toEqual([true, true, undefined])
  await press(clinic, 'iben')
  expect((await clinic.chart()).escalations[0]?.acknowledged?.author).toBe('iben')
})

test('a restart in the middle of a call loses nothing and rings nobody twice', async () => {
  const clinic = await withUrgentCall()
  await ring(clinic)
  await clinic.advance(30)
  clinic.restart()
  await clinic.advance(31)
  expect(await clinic.calls()).toEqual(['iben', 'ravi'])
  expect(clinic.heard.filter((one) => one === 'call to iben')).toHaveLength(1)
})

test('the platform is down for two hours: the calls wait, all are heard afterwards, and the lead hears of the breach', async () => {
  const clinic = await withUrgentCall()
  await ring(clinic)
  clinic.weather.down = true
  await clinic.advance(120)
  expect(clinic.heard.filter((one) => one.startsWith('call'))).toEqual([])
  expect((await clinic.chart()).escalations[0]?.breaches.map((breach) => breach.what)).toContain('not sent')
  clinic.weather.down = false
  await clinic.advance(6)
  for (const who of ['iben', 'ravi', 'sunniva']) expect(clinic.heard).toContain(`call to ${who}`)
  expect(clinic.heard).toContain('stop to ada')
})

test("the therapist's account is gone: the next person is called in the same minute", async () => {
  const clinic = await withUrgentCall()
  clinic.weather.gone.add('iben')
  await ring(clinic)
  await clinic.advance(1)
  expect(await clinic.calls()).toEqual(['iben', 'ravi'])
  expect(clinic.heard).toContain('call to ravi')
  expect((await clinic.chart()).escalations[0]?.failed.has(1)).toBe(true)
})

test('two people press at the same moment: one has it, the other is told who', async () => {
  const clinic = await withUrgentCall()
  await ring(clinic)
  const outcomes = await Promise.all([press(clinic, 'iben'), press(clinic, 'ravi')])
  const refused = outcomes.filter((outcome) => 'refused' in outcome)
  expect(refused).toHaveLength(1)
  expect(refused[0]).toMatchObject({ refused: 'taken', words: expect.stringMatching(/Iben|Ravi/) })
})

test('a form that is sent twice is one check-in and one alarm', async () => {
  const clinic = await withUrgentCall()
  const outcomes = await Promise.all([ring(clinic), ring(clinic)])
  expect(outcomes.filter((outcome) => 'refused' in outcome)).toMatchObject([{ refused: 'already-recorded' }])
  expect((await clinic.chart()).escalations).toHaveLength(1)
})

test('the clock jumps back: no call is lost and none rings twice', async () => {
  const clinic = await withUrgentCall()
  await ring(clinic)
  await clinic.advance(59)
  clinic.weather.now = plusMinutes(clinic.weather.now, -60)
  await clinic.advance(60)
  expect(await clinic.calls()).toEqual(['iben'])
  await clinic.advance(1)
  expect(await clinic.calls()).toEqual(['iben', 'ravi'])
})

const faulty: readonly [string, (folder: string) => void, RegExp][] = [
  [
    'an empty list of words',
    (folder) => change(folder, 'words/alarms.json', (list) => ({ ...list, alarms: [] })),
    /alarms\.json:\d+: alarms: is empty/,
  ],
  [
    'a topic that no row hears',
    (folder) =>
      change(folder, 'words/alarms.json', (list) => ({
        ...list,
        alarms: [{ topic: 'calf', tier: 'next-session', patterns: ['calf'] }],
      })),
    /no red flag hears/,
  ],
  [
    'a pattern that cannot be read',
    (folder) =>
      change(folder, 'words/alarms.json', (list) => ({
        ...list,
        alarms: [{ topic: 'calf', tier: 'urgent', patterns: ['@nobody'] }],
      })),
    /there is no group/,
  ],
  [
    'no last resort',
    (folder) => change(folder, 'clinic.json', ({ lastResort: _, ...rest }) => rest),
    /clinic\.json:\d+: lastResort/,
  ],
  [
    'no licensed person',
    (folder) => change(folder, 'clinic.json', ({ support: _, ...rest }) => rest),
    /clinic\.json:\d+: support/,
  ],
  [
    'eleven minutes for an emergency',
    (folder) =>
      change(folder, 'clinic.json', (clinic) => ({
        ...clinic,
        calls: {
          ...(clinic.calls as object),
          emergency: { ackWithinMinutes: 11, closeWithinMinutes: 60 },
        },
      })),
    /ackWithinMinutes/,
  ],
  [
    'seven weeks of questions after surgery',
    (folder) =>
      change(folder, 'clinic.json', (clinic) => ({
        ...clinic,
        checkIn: { ...(clinic.checkIn as object), surgeryQuestionsWeeks: 7 },
      })),
    /surgeryQuestionsWeeks/,
  ],
]

for (const [what, spoil, words] of faulty)
  test(`with ${what} nothing starts, and the file and line are named`, () => {
    const folder = mkdtempSync(join(tmpdir(), 'shared-'))
    try {
      cpSync('shared', folder, { recursive: true })
      spoil(folder)
      expect(() => openLibrary(folder)).toThrow(words)
    } finally {
      rmSync(folder, { recursive: true })
    }
  })

function change(folder: string, file: string, how: (json: Record<string, unknown>) => object): void {
  const path = join(folder, file)
  writeFileSync(path, JSON.stringify(how(JSON.parse(readFileSync(path, 'utf8'))), null, 2))
}
