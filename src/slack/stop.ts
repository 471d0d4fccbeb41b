import type { Chart, Escalation } from '../chart/chart.ts'
import { nameOf, type Team } from '../chart/roster.ts'
import { redFlags } from '../rules/red-flags.ts'
import { context, escaped, header, type Message, section } from './blocks.ts'
import { caution } from './prescription.ts'

/** What an athlete is told when a red flag holds: what to do now, and that a human has been called. */
export function stopMessage(chart: Chart, e: Escalation, nobodyYet: boolean, team: Team): Message {
  const { clinic } = team
  const findings = new Set(e.because.map((reason) => reason.finding))
  const doNow = redFlags.filter((flag) => findings.has(flag.finding)).map((flag) => flag.toAthlete)
  const number = escaped(clinic.emergencyNumber)
  const called = escaped(nameOf(team, e.calls.at(-1)?.person ?? ''))
  const phone = escaped(clinic.lastResort.phone)
  return {
    text: 'Please read this message now.',
    blocks: [
      header('No running today'),
      section(
        e.tier === 'emergency'
          ? `*Call ${number} now*, or have somebody call. ${doNow.join(' ')}`
          : `A clinician should see you today. ${doNow.join(' ')} If it gets worse, call ${number}.`,
      ),
      section(
        nobodyYet
          ? `*Nobody has answered yet. Do not wait for us: ring ${phone}, or go to urgent care.* We go on calling. Running stays on hold.`
          : `${called} is being called about your answers. Running is on hold until a therapist lifts it. If nobody rings you, ring ${phone}.`,
      ),
      caution(team),
      ...(chart.plan ? [] : [context('No plan is signed yet.')]),
    ],
  }
}

/** The one fixed answer to words of mood, eating or self-harm. Nothing is asked, scored or commented on. */
export function supportMessage({ clinic }: Team): Message {
  const { name, number } = clinic.support.crisisLine
  return {
    text: 'Please read this message.',
    blocks: [
      section('Thank you for writing it down. *A human will contact you.* I do not answer this myself.'),
      section(
        `If you want to talk to somebody now: ${escaped(name)}, *${escaped(number)}*. If you are in danger now, call *${escaped(clinic.emergencyNumber)}*, and stay with somebody.`,
      ),
      context(
        'Only the licensed person of the clinic hears what you wrote. Your coach does not, your therapist does not.',
      ),
    ],
  }
}
