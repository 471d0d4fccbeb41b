import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { player } from '../../src/rehearsal/cast.ts'
import { signatureHeaders } from '../../src/rehearsal/signing.ts'
import { type Door, may } from '../../src/rules/permissions.ts'
import { type ClinicAtWork, fillMorning, openClinic, signingSecret } from './clinic.ts'

let clinic: ClinicAtWork
beforeAll(async () => {
  clinic = await openClinic(['mika'])
  await (await fillMorning(clinic, 'mika', { worstPain: '1' })).submit()
  await clinic.submit('mika', { kind: 'amendment-request', athlete: 'mika', words: 'Wrong side' })
  await clinic.settle()
})
afterAll(() => clinic.close())

const people = ['mika', 'adaeze', 'noor', 'tove', 'iben', 'ravi', 'liv', 'sunniva'] as const
const athlete = 'mika'
const request = 'amendment-request/mika/1'

/** Every button of the chart and the clinic that this file is about, with the grant behind it. */
const pressed: readonly [string, Door, object][] = [
  ['open-review', 'review', { athlete }],
  ['open-builder', 'plan-signed', { athlete }],
  ['open-export', 'exported', { athlete }],
  ['open-amend-request', 'amendment-request-answered', { athlete, request }],
  ['open-staff-session', 'session-done', { athlete }],
  ['open-skipped', 'run-skipped', { athlete }],
  ['open-exercise', 'exercise-done', { athlete }],
  ['open-settings', 'settings', {}],
]

const of = (value: string) => ({ selected_option: { value } })
const typed = (value: string) => ({ value })
const wish = {
  start: { bodyWeightPct: 50, speedMps: 2.2, minutes: 10 },
  goal: { speedMps: 2.5, minutes: 20, on: 'ground' },
  most: { forceRisePct: 10, loadRisePct: 20 },
}
const ceiling = { bodyWeightPct: typed('100'), speedKmh: typed('20'), runMinutes: typed('60') }

/** Every form, filled in so that only the person who sends it can be wrong. */
const sent: readonly [string, Door, object, Record<string, object>][] = [
  ['review', 'review', { athlete, day: '2026-03-16' }, { next: of('go on') }],
  [
    'build-ladder',
    'plan-signed',
    { athlete, onTheWay: false },
    {
      bodyWeightPct: typed('50'),
      speedKmh: typed('8'),
      minutes: typed('10'),
      goalSpeedKmh: typed('9'),
      goalMinutes: typed('20'),
      on: of('ground'),
      forceRisePct: typed('10'),
      loadRisePct: typed('20'),
    },
  ],
  [
    'plan',
    'plan-signed',
    { athlete, onTheWay: false, wish },
    { startRung: typed('1'), days: { selected_options: [{ value: 'mon' }] }, ...ceiling },
  ],
  ['export', 'exported', { athlete }, { what: of('ics'), for: typed('me'), paper: of('A4') }],
  [
    'amend-request',
    'amendment-request-answered',
    { athlete, request },
    { outcome: of('appended'), words: typed('So it stands') },
  ],
  [
    'staff-session',
    'session-done',
    { athlete, bouts: 1 },
    {
      day: { selected_date: '2026-03-16' },
      'gait-1': of('run'),
      'bodyWeightPct-1': typed('50'),
      'speedKmh-1': typed('8'),
      'inclinePct-1': typed('0'),
      'repeats-1': typed('1'),
      'minutes-1': typed('5'),
      painBefore: of('0'),
      painDuring: of('0'),
      painAfter: of('0'),
      rpe: of('3'),
    },
  ],
  ['run-skipped', 'run-skipped', { athlete }, { day: { selected_date: '2026-03-15' } }],
  [
    'exercise',
    'exercise-done',
    { athlete },
    { day: { selected_date: '2026-03-16' }, asWritten: { selected_options: [{ value: 'dead-bug' }] } },
  ],
  ['settings', 'settings', {}, { remindMinutes: typed('30') }],
]

const from = (id: string) => ({ id: player(id).account, team_id: 'T1' })
async function post(payload: object) {
  const body = new URLSearchParams({ payload: JSON.stringify(payload) }).toString()
  const form = 'application/x-www-form-urlencoded'
  const answer = await clinic.workspace.raw(
    { 'content-type': form, ...signatureHeaders(body, signingSecret) },
    body,
  )
  await clinic.settle()
  return answer.body
}
const head = { team: { id: 'T1', domain: 'd' }, api_app_id: 'A1', trigger_id: '1.2.3' }
async function granted(id: string, door: Door): Promise<boolean> {
  const chart = await clinic.bot.desk.charts.read(athlete)
  return may({ id, roles: [player(id).role] }, door, chart)
}
async function written() {
  const { store } = clinic.bot.desk
  return [await store.index(), (await store.read('clinic', 0)).length]
}

describe('a button opens for whoever may use the door behind it, and for nobody else', () => {
  for (const [name, door, value] of pressed)
    for (const id of people)
      test(`${id}, ${name}`, async () => {
        clinic.clock.pushBy({ seconds: 5 })
        const calls = clinic.workspace.calls.length
        const action = { type: 'button', action_id: name, value: JSON.stringify(value) }
        await post({ ...head, type: 'block_actions', user: from(id), actions: [action] })
        const made = clinic.workspace.calls.slice(calls)
        const opened = made.filter((call) => call.method.startsWith('views.'))
        const told = made.filter((call) => call.method === 'chat.postMessage')
        expect(opened.length > 0).toBe(await granted(id, door))
        if (opened.length === 0) expect(JSON.stringify(told)).toContain('Please ask them')
      })
})

/** Forms that somebody has handed in: the first is taken, a second may have come too late. */
const taken = new Set<string>()

describe('a form is taken from whoever may hand it in; from anybody else nothing is written and nothing shown', () => {
  for (const [name, door, about, values] of sent)
    for (const id of people)
      test(`${id}, ${name}`, async () => {
        clinic.clock.pushBy({ seconds: 5 })
        const before = await written()
        const state = Object.entries(values).map(([field, value]) => [field, { [field]: value }])
        const block = { type: 'input', block_id: 'first', element: {}, label: {} }
        const view = {
          id: 'V1',
          type: 'modal',
          callback_id: name,
          private_metadata: JSON.stringify(about),
          blocks: [block],
          state: { values: Object.fromEntries(state) },
        }
        const answer = await post({ ...head, type: 'view_submission', user: from(id), view })
        if (await granted(id, door)) {
          expect(answer).not.toContain('Please ask them')
          if (!taken.has(name)) expect(answer).not.toContain('errors')
          taken.add(name)
          return
        }
        expect(JSON.parse(answer)).toEqual({
          response_action: 'errors',
          errors: { first: expect.stringContaining('Please ask them') },
        })
        expect(await written()).toEqual(before)
      })
})
