import type { KnownBlock } from '@slack/types'
import type { Chart } from '../chart/chart.ts'
import type { Day } from '../chart/day.ts'
import type { Team } from '../chart/roster.ts'
import { type AmendRequest, amendRequests, answerBy } from '../rules/amend-request.ts'
import { header, section } from './blocks.ts'
import { lineWithButton } from './pickers.ts'

/** What the athlete asked to have corrected, with the day by which the law asks for an answer. */
export function requestBlocks(chart: Chart, team: Team, today: Day): KnownBlock[] {
  const requests = amendRequests(chart)
  if (requests.length === 0) return []
  return [
    header('Requests to correct the record'),
    ...requests.map((request) =>
      request.answered
        ? section(`${request.asked.recordedAt.slice(0, 10)}: ${answeredInWords(request)}`)
        : lineWithButton(openInWords(request, chart, team, today), {
            does: 'open-amend-request',
            label: 'Answer',
            value: JSON.stringify({ athlete: chart.athlete, request: request.asked.id }),
          }),
    ),
  ]
}

/** When it was asked, and the day by which the law asks for an answer. */
export function openInWords(request: AmendRequest, chart: Chart, team: Team, today: Day): string {
  const by = answerBy(request, chart, team)
  const put = request.extended ? ', put off once' : ''
  return `*Asked on ${request.asked.recordedAt.slice(0, 10)}*: answer by *${by}*${by < today ? ', which is over' : ''}${put}.`
}

function answeredInWords({ answered, disagreement }: AmendRequest): string {
  const how =
    answered?.outcome === 'denied' ? `refused (${answered.ground})` : `accepted, ${answered?.outcome}`
  return `${how} on ${answered?.recordedAt.slice(0, 10)}${disagreement ? '; the athlete disagrees' : ''}.`
}
