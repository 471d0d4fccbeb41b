import type { Prescription } from '../chart/prescription.ts'
import type { Team } from '../chart/roster.ts'
import { buttons, context, escaped, header, type Message, section } from './blocks.ts'
import { doseInWords, reasonsInWords } from './words.ts'

/** Today's prescription as a card to run from: what, stop rules, why, and who decides. */
export function prescriptionMessage(prescription: Prescription, team: Team): Message {
  const { dose } = prescription
  const reasons = context(`Why: ${escaped(reasonsInWords(prescription.because))}`)
  if (!dose)
    return {
      text: 'Your plan for today is here.',
      blocks: [
        header(prescription.what === 'exercise' ? 'Today: no run' : 'Today: rest, no running'),
        section(
          prescription.what === 'exercise'
            ? 'Your exercises without running, as agreed with your therapist and your strength coach.'
            : 'Your therapist decides what comes next.',
        ),
        reasons,
        caution(team),
      ],
    }
  return {
    text: 'Your plan for today is here.',
    blocks: [
      header('Today: run'),
      section(
        doseInWords(dose)
          .map((line) => `• ${escaped(line)}`)
          .join('\n'),
      ),
      section(
        `*Set-up:* calibrate to your own weight, walk first, start at the low end and stay at a comfortable pace.`,
      ),
      section(`*Stop:* ${stopRule}`),
      reasons,
      buttons({ does: 'open-session', label: 'Log this run', main: true }),
      caution(team),
    ],
  }
}

const stopRule =
  'any pain at the injured place: carry less weight first; if it stays or comes back, stop the run and log it. Chest pain, faintness or short breath: stop at once.'

/** The usual cautions, in short, under everything that somebody may act on. */
export function caution(team: Team) {
  return context(
    `Decisions stay with the therapist who signed your plan. This is not a diagnosis. In an emergency call ${escaped(team.clinic.emergencyNumber)}.`,
  )
}
