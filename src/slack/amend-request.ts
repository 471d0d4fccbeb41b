import { z } from 'zod'
import { Ground } from '../chart/amend-request.ts'
import type { Chart } from '../chart/chart.ts'
import type { Day } from '../chart/day.ts'
import { nameOf, type Team } from '../chart/roster.ts'
import { amendRequests, answerBy } from '../rules/amend-request.ts'
import { openInWords } from './amend-request-lines.ts'
import { context, escaped, type Modal, modal, option, quote, section, textInput } from './blocks.ts'
import { optionsOf, radioFrom, selectFrom } from './pickers.ts'
import { reads } from './reading.ts'
import { labelOf } from './strike.ts'

const OfRequest = z.object({ athlete: z.string(), request: z.string() })

/** One request with the ways to answer it; undefined when it was answered meanwhile. */
export function requestModal(chart: Chart, id: string, team: Team, today: Day): Modal | undefined {
  const request = amendRequests(chart).find(({ asked, answered }) => asked.id === id && !answered)
  if (!request) return undefined
  const { asked, extended } = request
  const by = answerBy(request, chart, team)
  const entry = chart.entries.find((one) => one.id === asked.entry)
  const about = { athlete: chart.athlete, request: id }
  const mayPutOff = !extended && today <= by
  return modal({ door: 'amend-request', title: 'Answer a request', submit: 'Answer', about }, [
    section(
      `*${escaped(nameOf(team, chart.athlete))}* asks for a correction${entry ? ` of: ${escaped(labelOf(entry, team))}` : ': something is missing'}.`,
    ),
    quote(asked.words),
    section(`${openInWords(request, chart, team, today)} ${escaped(team.clinic.record.law)}`),
    radioFrom({ name: 'outcome', label: 'Your answer' }, [
      ...(entry ? [option('struck', 'Accepted: the entry is struck out')] : []),
      option('appended', 'Accepted: my words below stand beside the record'),
      option('denied', 'Refused, with the reason below'),
      ...(mayPutOff ? [option('extended', `More time: ${team.clinic.record.extensionDays} days, once`)] : []),
    ]),
    selectFrom({ name: 'ground', label: 'Ground, when refused', optional: true }, optionsOf(Ground.options)),
    textInput({ name: 'words', label: 'In writing, to the athlete', most: 2000 }),
    context('The athlete reads these words. A refusal and its reason stay in the record.'),
  ])
}

export const requestRead = reads(OfRequest, async (_, form, { athlete, request }) => {
  const outcome = form.choice('outcome')
  const words = form.text('words') ?? ''
  if (outcome === 'extended')
    return { hands: [{ kind: 'amendment-request-extended', athlete, request, words }] }
  const ground = outcome === 'denied' ? form.choice('ground') : undefined
  return {
    hands: [{ kind: 'amendment-request-answered', athlete, request, outcome, ground, words }],
  }
})
