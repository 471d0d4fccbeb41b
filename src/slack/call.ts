import type { KnownBlock } from '@slack/types'
import type { Chart, Escalation } from '../chart/chart.ts'
import { minutesBetween } from '../chart/day.ts'
import type { Entry } from '../chart/entries.ts'
import { Disposition } from '../chart/escalation.ts'
import { nameOf, type Person, type Team } from '../chart/roster.ts'
import { isSpoken, wordsFor } from '../rules/note.ts'
import {
  buttons,
  context,
  escaped,
  header,
  type Message,
  type Modal,
  modal,
  option,
  quote,
  radio,
  section,
  select,
  textInput,
} from './blocks.ts'
import type { Form } from './form.ts'
import { saidBy } from './told.ts'
import { reasonsInWords } from './words.ts'

/** Who reads a message about a call, and the entry that it tells of. */
type Telling = { readonly to: string; readonly entry: Entry | undefined }

/** A call: somebody must acknowledge it, and close it with what came of it. */
export function callMessage(chart: Chart, e: Escalation, { to, entry }: Telling, team: Team): Message {
  const value = JSON.stringify({ athlete: chart.athlete, escalation: e.id })
  return {
    text: 'You are being called. Please open this message now.',
    blocks: [
      header(titleOf(chart, e, entry, team)),
      ...(rings(entry) ? [section(rings(entry) ?? '')] : []),
      section(escaped(reasonsInWords(e.because))),
      ...answersOf(chart, e, to, team),
      section(standingOf(e, team)),
      ...buttonsFor(e, to, value),
      context(
        e.concern === 'audit'
          ? `Call ${e.calls.length}. An alarm did not do what its list says.`
          : `Call ${e.calls.length}. Running is on hold. The findings are not a diagnosis.`,
      ),
    ],
  }
}

/** What became of a call, for everybody who was called before and for the athlete. */
export function callNewsMessage(chart: Chart, e: Escalation, { to, entry }: Telling, team: Team): Message {
  const by = e.closed?.author ?? e.acknowledged?.author ?? ''
  if (to === chart.athlete)
    return {
      text: 'There is news about your check-in.',
      blocks: [section(`${escaped(nameOf(team, by))} has seen your answers and will be in touch.`)],
    }
  const again = entry?.kind === 'escalation-updated' ? ' The same sign again; the alarm was updated.' : ''
  return {
    text: 'A call has moved on.',
    blocks: [section(`*${whose(chart, e, team)}*: ${standingOf(e, team)}${again}`)],
  }
}

/** To a colleague by name; those whose specialities fit the flag come first. */
export function handOverModal(chart: Chart, e: Escalation, colleagues: readonly Person[], team: Team): Modal {
  const about = { athlete: chart.athlete, escalation: e.id }
  const label = ({ name, specialities = [] }: Person) =>
    specialities.length > 0 ? `${name} (${specialities.join(', ')})` : name
  return modal({ door: 'hand-over-call', title: 'Hand over the call', submit: 'Hand over', about }, [
    section(`Who takes the call about *${whose(chart, e, team)}*? They are called at once.`),
    select(
      { name: 'to', label: 'Colleague', hint: 'Those whose training fits this call come first' },
      colleagues.slice(0, 100).map((person) => option(person.id, label(person))),
    ),
    textInput({ name: 'words', label: 'What they should know', optional: true }),
  ])
}

export function handOverFrom(form: Form, athlete: string, escalation: string): unknown {
  const words = form.text('words')
  return { kind: 'handed-over', athlete, escalation, to: form.choice('to'), ...(words ? { words } : {}) }
}

export function closeModal(chart: Chart, escalation: string, team: Team): Modal {
  const title = 'Close the call'
  return modal(
    { door: 'close-call', title, submit: 'Close', about: { athlete: chart.athlete, escalation } },
    [
      section(`What came of the call about *${escaped(nameOf(team, chart.athlete))}*?`),
      select(
        { name: 'disposition', label: 'Disposition' },
        Disposition.options.map((d) => option(d, d)),
      ),
      textInput({ name: 'words', label: 'What was found and agreed' }),
      radio({ name: 'hold', label: 'The hold on running' }, [
        option('keep', 'stays until I lift it'),
        option('lift', 'I lift it now; the next check-in decides about running'),
      ]),
    ],
  )
}

/** The closing, and the lifting of the hold where the therapist chose it. */
export function closingFrom(form: Form, chart: Chart, escalation: string): readonly unknown[] {
  const words = form.text('words')
  const { athlete } = chart
  const closing = {
    kind: 'escalation-closed',
    athlete,
    escalation,
    disposition: form.choice('disposition'),
    words,
  }
  const hold = chart.holds.find((h) => h.about === escalation)
  return form.choice('hold') === 'lift' && hold
    ? [closing, { kind: 'hold-lifted', athlete, hold: hold.id, words }]
    : [closing]
}

/** Sent, delivered, acknowledged by name, closed: four states, never mixed up; sent is never shown as seen. */
function standingOf(e: Escalation, team: Team): string {
  const { calls, acknowledged, closed } = e
  const name = (person: string) => escaped(nameOf(team, person))
  if (closed) return `Closed by ${name(closed.author)}: ${closed.disposition}.`
  if (acknowledged) return `Acknowledged by ${name(acknowledged.author)}.`
  const last = calls.at(-1)
  if (!last) return 'Nobody has been called yet.'
  const minutes = Math.round(minutesBetween(last.recordedAt, last.ackBy))
  const before = calls.slice(0, -1)
  const those = (made: readonly (typeof last)[]) =>
    [...new Set(made.map(({ person, call }) => `${name(person)} (${wayOf(e, call)})`))].join(', ')
  const reached = ({ call }: typeof last) => e.sent.has(call) || e.delivered.has(call)
  const silent = those(before.filter(reached))
  const unreached = those(before.filter((made) => !reached(made)))
  return [
    `Called: ${name(last.person)} (${wayOf(e, last.call)}), to acknowledge within ${minutes} min; then the next on the list is called.`,
    ...(silent ? [`No answer from ${silent}.`] : []),
    ...(unreached ? [`Has not reached ${unreached}.`] : []),
  ].join(' ')
}

function wayOf(e: Escalation, call: number): string {
  if (e.failed.has(call)) return 'cannot be reached'
  if (e.delivered.has(call)) return 'delivered'
  return e.sent.has(call) ? 'sent' : 'on its way'
}

/** The auditor does not say whose confidence it is about. */
function whose(chart: Chart, e: Escalation, team: Team): string {
  const confidential = chart.escalations.some((one) => one.id === e.opened.about && one.concern === 'support')
  return e.concern === 'audit' && confidential
    ? 'somebody, in confidence'
    : escaped(nameOf(team, chart.athlete))
}

function titleOf(chart: Chart, e: Escalation, entry: Entry | undefined, team: Team): string {
  const what = {
    body: tiers[e.tier],
    support: `${tiers[e.tier]}, in confidence`,
    audit: 'An alarm went wrong',
  }
  const why = entry?.kind === 'reminded' ? 'Still open: ' : ''
  return `${why}${what[e.concern]}: ${whose(chart, e, team)}`
}

const tiers = { emergency: 'Emergency call', urgent: 'Urgent call' } as const

/** Why the phone rings, when it is not the first call. */
function rings(entry: Entry | undefined): string | undefined {
  if (entry?.kind === 'reminded')
    return 'You have this call and it is not closed. It goes back on the list soon.'
  if (entry?.kind !== 'call-made') return undefined
  const words = {
    opened: undefined,
    'no answer': undefined,
    'not reachable': undefined,
    worse: '*Worse, or a new sign, since the last call.*',
    'handed over': 'This call was handed over to you.',
    'back on the list': 'Acknowledged and not closed in time: the call is back on the list.',
  }
  return words[entry.why]
}

/** The answers behind a call. Words in confidence are shown to the licensed person only. */
function answersOf(chart: Chart, e: Escalation, to: string, team: Team): KnownBlock[] {
  if (e.concern === 'audit') return []
  const about = e.updates.at(-1)?.about ?? e.opened.about
  const checkIn = chart.checkIns.find((one) => one.id === about)
  const spoken = chart.entries.filter(isSpoken).find((one) => one.id === about)
  const said = wordsFor(spoken ?? { athlete: '' }, to, team)
  const temperature = checkIn?.temperature === undefined ? '' : ` Temperature: ${checkIn.temperature}.`
  return [
    ...(checkIn && e.concern === 'body'
      ? [
          section(
            `Worst pain ${checkIn.worstPain}, now ${checkIn.morningPain} of 10. More swollen: ${checkIn.swelling}.${temperature}`,
          ),
        ]
      : []),
    ...(said && spoken ? [context(saidBy(spoken, team)), quote(said)] : []),
  ]
}

function buttonsFor(e: Escalation, to: string, value: string): KnownBlock[] {
  if (e.closed) return []
  const handOver = { does: 'open-hand-over', label: 'Hand over', value }
  const also = e.concern === 'support' ? [] : [handOver]
  if (!e.acknowledged)
    return [buttons({ does: 'acknowledge', label: 'I have this call', value, main: true }, ...also)]
  if (e.acknowledged.author !== to) return []
  return [buttons({ does: 'open-close', label: 'Close with what came of it', value, main: true }, ...also)]
}
