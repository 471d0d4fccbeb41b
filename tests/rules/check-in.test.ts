import { expect, test } from 'vitest'
import type { Chart } from '../../src/chart/chart.ts'
import { openLibrary } from '../../src/desk/library.ts'
import { answer } from '../../src/rules/answer.ts'
import { groupsAsked, onCheckIn } from '../../src/rules/check-in.ts'
import { isRefusal } from '../../src/rules/decision.ts'
import { wordsFor } from '../../src/rules/note.ts'
import type { Answers, Submission } from '../../src/rules/submissions.ts'
import { adasChart, after, at, clinic, heardBy, kinds, teamOf, tuesday, words } from './clinic-of-tests.ts'

const shelf = openLibrary('shared')
const team = teamOf()
const setting = { team, words, now: at('08:00') }
const knee = adasChart({ tissue: 'joint', site: 'knee', surgeryDay: '2026-04-07' })
const none = { always: [], bone: [] }
const kneeNone = { always: [], surgery: [], knee: [] }

const play = (chart: Chart, answers: Partial<Answers>) => {
  const all = { worstPain: 0, morningPain: 0, swelling: 'no' as const, signs: none, ...answers }
  return onCheckIn(chart, { kind: 'check-in', athlete: 'ada', day: tuesday, answers: all }, 'ada', setting)
}
const decided = (chart: Chart, answers: Partial<Answers>) => {
  const decision = play(chart, answers)
  if (isRefusal(decision)) throw new Error(decision.words)
  return decision
}
const tiers = (decision: ReturnType<typeof decided>) =>
  decision.entries.flatMap((entry) =>
    entry.kind === 'escalation-opened' ? [`${entry.concern}: ${entry.tier}`] : [],
  )

test('questions follow the case: bone, knee, and eight weeks after surgery to the day', () => {
  expect(groupsAsked(adasChart(), tuesday, clinic)).toEqual(['always', 'bone'])
  expect(groupsAsked(knee, tuesday, clinic)).toEqual(['always', 'surgery', 'knee'])
  expect(groupsAsked(knee, '2026-06-02', clinic)).toContain('surgery')
  expect(groupsAsked(knee, '2026-06-03', clinic)).not.toContain('surgery')
})

test('a group that was asked and not answered is refused at its field; so is a temperature', () => {
  expect(play(adasChart(), { signs: { always: [] } })).toMatchObject({
    refused: 'unanswered',
    field: 'signs-bone',
  })
  expect(play(knee, { signs: kneeNone })).toMatchObject({ refused: 'unanswered', field: 'temperature' })
})

test('38.0 after surgery is a call today, 37.9 is none', () => {
  expect(tiers(decided(knee, { signs: kneeNone, temperature: 38.0 }))).toEqual(['body: urgent'])
  expect(tiers(decided(knee, { signs: kneeNone, temperature: 37.9 }))).toEqual([])
  expect(tiers(decided(knee, { signs: kneeNone, temperature: 'not taken' }))).toEqual([])
})

test('V5: a knee more swollen than yesterday holds and calls the same day', () => {
  expect(
    tiers(decided(adasChart({ tissue: 'joint' }), { signs: { always: [], knee: [] }, swelling: 'yes' })),
  ).toEqual(['body: urgent'])
})

test('V9: a new calf swelling is urgent; short of breath on the stairs as well makes it an emergency', () => {
  const calf = { signs: { ...kneeNone, surgery: ['calf' as const] }, temperature: 'not taken' as const }
  expect(tiers(decided(knee, calf))).toEqual(['body: urgent'])
  expect(tiers(decided(knee, { ...calf, note: 'bit puffed walking up stairs' }))).toEqual(['body: emergency'])
})

test('V10: three weeks after surgery 38.1 and a hot knee is urgent', () => {
  const signs = { ...kneeNone, surgery: ['hot-joint' as const] }
  expect(tiers(decided(knee, { signs, temperature: 38.1 }))).toEqual(['body: urgent'])
})

test('V11: groin pain at night and on standing is urgent', () => {
  const groin = adasChart({ site: 'groin' })
  expect(tiers(decided(groin, { signs: { always: [], bone: ['bone-pain-at-night'] } }))).toEqual([
    'body: urgent',
  ])
  expect(tiers(decided(groin, { signs: { always: [], bone: ['hurts-to-stand'] } }))).toEqual(['body: urgent'])
})

test('free text outranks scores: nothing ticked, pain zero, and the words ring', () => {
  const decision = decided(adasChart(), { note: 'All fine. I passed out on the treadmill yesterday though.' })
  expect(tiers(decision)).toEqual(['body: emergency'])
  expect(kinds(decision, 'check-in')).toMatchObject([{ heard: [{ topic: 'collapse', tier: 'emergency' }] }])
})

test('words of self-harm go to the licensed person and to nobody else; the athlete gets the one fixed message', () => {
  const decision = decided(adasChart(), { note: 'I want to kill myself' })
  expect(tiers(decision)).toEqual(['support: emergency'])
  expect(heardBy(decision)).toEqual(['support to ada', 'call to liv', 'cleared to coco'])
  expect(kinds(decision, 'hold')).toMatchObject([{ because: [{ finding: 'in-confidence' }] }])
  expect(JSON.stringify(kinds(decision, 'hold'))).not.toMatch(/kill|harm|mood/i)
})

test('low mood does not ring: a note to the licensed person, none to the therapist', () => {
  const decision = decided(adasChart(), { note: 'feeling low and unmotivated' })
  expect(heardBy(decision)).toEqual(['support to ada', 'note to liv', 'prescription to ada'])
})

test('a body and a mind flag go two ways, and the therapist never reads the sentence', () => {
  const chart = after(
    adasChart(),
    play(adasChart(), {
      signs: { always: [], bone: ['bone-pain-at-night', 'sore-spot'] },
      note: 'I feel hopeless',
    }),
  )
  expect(chart.escalations.map((e) => [e.concern, e.opened.callList[0]?.person])).toEqual([
    ['body', 'iben'],
    ['support', 'liv'],
  ])
  const [checkIn] = chart.checkIns
  expect(checkIn && wordsFor(checkIn, 'iben', team)).toBeUndefined()
  expect(checkIn && wordsFor(checkIn, 'liv', team)).toBe('I feel hopeless')
  expect(checkIn && wordsFor(checkIn, 'ada', team)).toBe('I feel hopeless')
})

test('the hold in confidence is lifted by the licensed person, not by the therapist', () => {
  const chart = after(adasChart(), play(adasChart(), { note: 'I feel hopeless' }))
  const id = chart.escalations[0]?.id ?? ''
  const doing = (by: string, submission: Submission, on: Chart) =>
    answer(on, submission, { caller: { id: by, roles: ['therapist'] }, shelf, ...setting })
  const taken = after(
    chart,
    doing('liv', { kind: 'call-acknowledged', athlete: 'ada', escalation: id }, chart),
  )
  expect(doing('iben', { kind: 'call-acknowledged', athlete: 'ada', escalation: id }, chart)).toMatchObject({
    refused: 'not-on-list',
  })
  const closing = {
    kind: 'escalation-closed' as const,
    athlete: 'ada',
    escalation: id,
    disposition: 'called' as const,
    words: 'Spoken.',
  }
  const closed = after(taken, doing('liv', closing, taken))
  const lift = {
    kind: 'hold-lifted' as const,
    athlete: 'ada',
    hold: closed.holds[0]?.id ?? '',
    words: 'Well.',
  }
  expect(doing('iben', lift, closed)).toMatchObject({ refused: 'in-confidence' })
  expect(after(closed, doing('liv', lift, closed)).holds).toEqual([])
})

test('a precaution that an answer touches holds the run and asks for the treating clinician, without a call', () => {
  const decision = decided(adasChart(), { note: "I'm pregnant" })
  expect(tiers(decision)).toEqual([])
  expect(kinds(decision, 'hold')).toMatchObject([{ because: [{ finding: 'precaution' }] }])
  expect(heardBy(decision)).toContain('note to iben')
})

test('a precaution that is present at enrolment holds running until a therapist lifts it', () => {
  const { enrolment } = adasChart()
  if (!enrolment) throw new Error('ada is enrolled')
  const { id: _, author: __, recordedAt: ___, ...rest } = enrolment
  const submit = (precautions: 'clot'[]) =>
    answer(
      adasChart(),
      { ...rest, precautions },
      { caller: { id: 'iben', roles: ['therapist'] }, shelf, ...setting },
    )
  expect(after(adasChart(), submit(['clot'])).holds).toHaveLength(1)
  expect(after(adasChart(), submit([])).holds).toEqual([])
})

test('an athlete without a therapist cannot be enrolled', () => {
  const { enrolment } = adasChart()
  if (!enrolment) throw new Error('ada is enrolled')
  const { id: _, author: __, recordedAt: ___, ...rest } = enrolment
  const at = { caller: { id: 'iben', roles: ['therapist' as const] }, shelf, ...setting }
  expect(answer(adasChart(), { ...rest, therapist: 'nobody' }, at)).toMatchObject({ refused: 'no-therapist' })
})

test('a note that no list knows still reaches the therapist, quietly', () => {
  expect(heardBy(decided(adasChart(), { note: 'Could we talk about shoes?' }))).toContain('note to iben')
  expect(heardBy(decided(adasChart(), {}))).not.toContain('note to iben')
})
