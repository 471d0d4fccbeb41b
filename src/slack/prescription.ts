import type { KnownBlock } from '@slack/types'
import type { Chart } from '../chart/chart.ts'
import type { Prescription } from '../chart/prescription.ts'
import type { Exercise } from '../chart/programme.ts'
import type { Team } from '../chart/roster.ts'
import type { SetUpCard } from '../chart/set-up-card.ts'
import { cardFor } from '../rules/set-up-card.ts'
import { buttons, context, escaped, header, type Message, section, table } from './blocks.ts'
import { costInWords } from './dose-cost.ts'
import { doseRows, rangeInWords, reasonsInWords } from './words.ts'

type With = { readonly chart: Chart; readonly team: Team; readonly card: SetUpCard }

/** Today's prescription as a card to run from: what, set-up, when to stop, why, and who decides. */
export function prescriptionMessage(prescription: Prescription, { chart, team, card }: With): Message {
  const { dose } = prescription
  const reasons = context(`Why: ${escaped(reasonsInWords(prescription.because))}`)
  const text = 'Your plan for today is here.'
  if (!dose)
    return {
      text,
      blocks: [
        header(prescription.what === 'exercise' ? 'Today: no run' : 'Today: rest, no running'),
        ...withoutRun(prescription, chart),
        reasons,
        ...(prescription.what === 'exercise'
          ? [
              buttons({
                does: 'open-exercise',
                label: 'Log these exercises',
                value: JSON.stringify({ athlete: chart.athlete }),
                main: true,
              }),
            ]
          : []),
        caution(team),
      ],
    }
  const lines = cardFor(card, prescription, chart.episode?.tissue ?? 'bone', chart.enrolment?.shortsSize)
  return {
    text,
    blocks: [
      header('Today: run'),
      ...table(doseRows(dose)),
      ...costLine(costInWords(dose, chart)),
      ...listed('Before', lines?.before),
      ...listed('Set-up', lines?.start),
      ...listed('If it hurts', lines?.onPain),
      ...listed('Stop', lines?.stopWhen),
      context('These lists are common practice of the trade, as your clinic keeps them.'),
      reasons,
      buttons(
        { does: 'open-session', label: 'Log this run', main: true },
        {
          does: 'skip-run',
          label: 'I did not run',
          value: JSON.stringify({ athlete: chart.athlete, day: prescription.day }),
        },
      ),
      caution(team),
    ],
  }
}

function costLine(words: string | undefined): KnownBlock[] {
  return words === undefined ? [] : [context(`What it costs the body: ${words}`)]
}

function withoutRun({ what, programme }: Prescription, { plan }: Chart): KnownBlock[] {
  if (what !== 'exercise') return [section('Your therapist decides what comes next.')]
  const lead = 'Your exercises without running, as agreed with your therapist and your strength coach.'
  const signed = plan?.programme
  const exercises = signed && `${signed.id}@${signed.version}` === programme ? signed.exercises : []
  if (exercises.length === 0) return [section(lead)]
  return [section(lead), section(exercises.map(exerciseInWords).join('\n'))]
}

function exerciseInWords(one: Exercise): string {
  const each = one.eachSide ? ' each side' : ''
  const load = one.bodyWeightPct === undefined ? '' : `, at ${one.bodyWeightPct} % of body weight`
  const what = one.repeats
    ? `${rangeInWords(one.repeats)} repeats`
    : `${rangeInWords(one.holdSeconds ?? { low: 0, high: 0 })} s held`
  return `• *${escaped(one.title)}*: ${rangeInWords(one.sets)} sets of ${what}${each}${load}. ${escaped(one.words)}`
}

function listed(title: string, lines: readonly string[] = []): KnownBlock[] {
  return lines.length === 0
    ? []
    : [section(`*${title}*\n${lines.map((line) => `• ${escaped(line)}`).join('\n')}`)]
}

/** The usual cautions, in short, under everything that somebody may act on. */
export function caution(team: Team) {
  return context(
    `Decisions stay with the therapist who signed your plan. This is not a diagnosis. In an emergency call ${escaped(team.clinic.emergencyNumber)}.`,
  )
}
