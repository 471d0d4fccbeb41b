import type { Chart, Escalation } from '../chart/chart.ts'
import { minutesBetween } from '../chart/day.ts'
import { Disposition } from '../chart/escalation.ts'
import { nameOf, type Team } from '../chart/roster.ts'
import { redFlags } from '../rules/red-flags.ts'
import {
  type ButtonSpec,
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
import { caution } from './prescription.ts'
import { reasonsInWords } from './words.ts'

/** What an athlete is told when a red flag holds: what to do now, and that a human has been called. */
export function stopMessage(chart: Chart, escalation: Escalation, team: Team): Message {
  const { tier, because } = escalation.opened
  const findings = new Set(because.map((reason) => reason.finding))
  const doNow = redFlags.filter((flag) => findings.has(flag.finding)).map((flag) => flag.toAthlete)
  const number = escaped(team.clinic.emergencyNumber)
  const first = escaped(nameOf(team, escalation.opened.callList[0]?.person ?? ''))
  return {
    text: 'Please read this message now.',
    blocks: [
      header('No running today'),
      section(
        tier === 'emergency'
          ? `*Call ${number} now*, or have somebody call. ${doNow.join(' ')}`
          : `A clinician should see you today. ${doNow.join(' ')} If it gets worse, call ${number}.`,
      ),
      section(`${first} is being called about your answers. Running is on hold until a therapist lifts it.`),
      caution(team),
      ...(chart.plan ? [] : [context('No plan is signed yet.')]),
    ],
  }
}

/** A call: somebody must acknowledge it, and close it with what came of it. */
export function callMessage(chart: Chart, escalation: Escalation, team: Team): Message {
  const { opened, calls, acknowledged, closed } = escalation
  const checkIn = chart.checkIns.find((c) => c.id === opened.about)
  const value = JSON.stringify({ athlete: chart.athlete, escalation: escalation.id })
  const does: ButtonSpec[] = closed
    ? []
    : acknowledged
      ? [{ does: 'open-close', label: 'Close with what came of it', value, main: true }]
      : [{ does: 'acknowledge', label: 'I have this call', value, main: true }]
  return {
    text: 'You are being called. Please open this message now.',
    blocks: [
      header(`${opened.tier === 'emergency' ? 'Emergency' : 'Urgent'} call: ${nameOf(team, chart.athlete)}`),
      section(escaped(reasonsInWords(opened.because))),
      ...(checkIn
        ? [
            section(
              `Worst pain ${checkIn.worstPain}, now ${checkIn.morningPain} of 10. More swollen: ${checkIn.swelling}.`,
            ),
          ]
        : []),
      ...(checkIn?.note ? [context("In the athlete's own words:"), quote(checkIn.note)] : []),
      section(standingOf(escalation, team)),
      ...(does.length > 0 ? [buttons(...does)] : []),
      context(`Call ${calls.length}. Running is on hold. The findings are not a diagnosis.`),
    ],
  }
}

/** What became of a call, for everybody who was called before and for the athlete. */
export function callNewsMessage(chart: Chart, escalation: Escalation, to: string, team: Team): Message {
  const by = escalation.closed?.author ?? escalation.acknowledged?.author ?? ''
  if (to === chart.athlete)
    return {
      text: 'There is news about your check-in.',
      blocks: [section(`${escaped(nameOf(team, by))} has seen your answers and will be in touch.`)],
    }
  return {
    text: 'A call has moved on.',
    blocks: [section(`*${escaped(nameOf(team, chart.athlete))}*: ${standingOf(escalation, team)}`)],
  }
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

/** Called, acknowledged by name, closed: three states, never mixed up. */
function standingOf({ calls, acknowledged, closed }: Escalation, team: Team): string {
  const name = (person: string) => escaped(nameOf(team, person))
  if (closed) return `Closed by ${name(closed.author)}: ${closed.disposition}.`
  if (acknowledged) return `Acknowledged by ${name(acknowledged.author)}.`
  const last = calls.at(-1)
  if (!last) return 'Nobody has been called yet.'
  const minutes = Math.round(minutesBetween(last.recordedAt, last.ackBy))
  const before = calls.slice(0, -1).map((made) => name(made.person))
  const silent = before.length > 0 ? ` No answer from ${[...new Set(before)].join(', ')}.` : ''
  return `Called: ${name(last.person)}, to acknowledge within ${minutes} min; then the next on the list is called.${silent}`
}
