import type { KnownBlock } from '@slack/types'
import { z } from 'zod'
import type { Chart } from '../chart/chart.ts'
import { dayAt, type Instant, plusDays } from '../chart/day.ts'
import type { Entry } from '../chart/entries.ts'
import type { Person, Team } from '../chart/roster.ts'
import { standingEntries } from '../chart/struck.ts'
import { amendRequests, answerBy } from '../rules/amend-request.ts'
import { escaped, type Modal, modal, option, section, textInput } from './blocks.ts'
import type { Doorway } from './door.ts'
import { aboutFrom } from './form.ts'
import { lineWithButton, selectFrom } from './pickers.ts'
import { type Pressed, refuse, say, showForm } from './pressed.ts'
import { OfAthlete, reads } from './reading.ts'
import { labelOf } from './strike.ts'

/** What people wrote about this athlete. What was said in confidence to others does not show in a label. */
const correctable: ReadonlySet<Entry['kind']> = new Set([
  'enrolment',
  'episode',
  'plan-signed',
  'check-in',
  'session-done',
  'run-skipped',
  'exercise-done',
  'measure',
  'criteria-signed',
  'review',
  'clearance',
])

const OfRequest = z.object({ athlete: z.string(), request: z.string() })
const mostShown = 5

/** An athlete asks for a correction: of which entry, in their own words, and by when the clinic must answer. */
export function askCorrectionModal(chart: Chart, team: Team, now: Instant): Modal {
  const { answerWithinDays, law } = team.clinic.record
  const by = plusDays(dayAt(now, chart.enrolment?.timeZone ?? team.clinic.timeZone), answerWithinDays)
  const options = standingEntries(chart)
    .filter((entry) => correctable.has(entry.kind) && entry.id.length <= 75)
    .slice(-100)
    .toReversed()
    .map((entry) => option(entry.id, labelOf(entry, team)))
  const about = { athlete: chart.athlete }
  return modal({ door: 'ask-correction', title: 'Ask for a correction', submit: 'Ask', about }, [
    section(
      `Your therapist must answer by *${by}*, in writing. ${escaped(law)}\nNothing is deleted: what is corrected stays legible beside the correction.`,
    ),
    ...(options.length > 0
      ? [
          selectFrom(
            {
              name: 'entry',
              label: 'Which entry',
              hint: 'Leave it open when something is missing',
              optional: true,
            },
            options,
          ),
        ]
      : []),
    textInput({
      name: 'words',
      label: 'What is wrong, and what it should say',
      hint: 'It is answered in days, not today: what cannot wait belongs in the check-in.',
    }),
  ])
}

export const askCorrectionRead = reads(OfAthlete, async (_, form, { athlete }) => {
  const entry = form.choice('entry')
  const words = form.text('words') ?? ''
  return { hands: [{ kind: 'amendment-request', athlete, ...(entry ? { entry } : {}), words }] }
})

export const disagreeRead = reads(OfRequest, async (_, form, { athlete, request }) => ({
  hands: [{ kind: 'disagreement-stated', athlete, request, words: form.text('words') ?? '' }],
}))

/** The requests of an athlete as they stand, newest last, each with the date by which it is answered. */
export function ownRequestBlocks(chart: Chart, team: Team): KnownBlock[] {
  return amendRequests(chart)
    .slice(-mostShown)
    .map((request) => {
      const { asked, answered, disagreement } = request
      const day = asked.recordedAt.slice(0, 10)
      const head = `Correction that you asked for on ${day}: `
      if (!answered) return section(`${head}*an answer is due by ${answerBy(request, chart, team)}*.`)
      if (answered.outcome !== 'denied')
        return section(`${head}changed on ${answered.recordedAt.slice(0, 10)}.`)
      if (disagreement) return section(`${head}not changed; your disagreement stands with it.`)
      const value = JSON.stringify({ athlete: chart.athlete, request: asked.id })
      return lineWithButton(`${head}not changed (${answered.ground ?? 'no ground'}).`, {
        does: 'open-disagree',
        label: 'I disagree',
        value,
      })
    })
}

/** What an athlete can press about the own record. */
export const requestActions = {
  'open-ask-correction': async (doorway: Doorway, person: Person, pressed: Pressed): Promise<void> => {
    const { desk } = doorway
    const chart = await desk.charts.read(person.id)
    if (!person.roles.includes('athlete') || !chart.enrolment)
      return refuse(pressed, { refused: 'not-enrolled', words: 'There is no record of you yet.' })
    await pressed.ack()
    await showForm(pressed, askCorrectionModal(chart, await desk.team(), desk.clock.now()))
  },
  'open-disagree': async (doorway: Doorway, person: Person, pressed: Pressed): Promise<void> => {
    const about = aboutFrom(OfRequest, pressed.action.value)
    if ('refused' in about) return refuse(pressed, about)
    const chart = await doorway.desk.charts.read(person.id)
    await pressed.ack()
    if (!amendRequests(chart).some(({ asked }) => asked.id === about.request))
      return say(pressed, 'Only whoever asked for the correction can disagree.')
    await showForm(
      pressed,
      modal({ door: 'disagree', title: 'I disagree', submit: 'Save', about }, [
        section('It stays with the record and goes out with it.'),
        textInput({ name: 'words', label: 'Why you disagree' }),
      ]),
    )
  },
}
