import { parseArgs } from 'node:util'
import { dayAt } from '../chart/day.ts'
import type { Desk } from '../desk/desk.ts'
import { receive } from '../desk/intake.ts'
import { amendRequests, answerBy } from '../rules/amend-request.ts'
import { isRefusal } from '../rules/decision.ts'
import { atTheDesk, callerAt, folders } from './terminal-desk.ts'

const usage = `amend-request --athlete ID                                     lists the requests and their dates
amend-request --athlete ID --ask WORDS [--entry ID]            the athlete asks for a correction
amend-request --athlete ID --extend REQUEST --words WORDS      more time, once, with the reason
amend-request --athlete ID --answer REQUEST --outcome struck|appended|denied [--ground GROUND] --words WORDS
amend-request --athlete ID --disagree REQUEST --words WORDS    the athlete disagrees with a refusal
also: --by ID  --data FOLDER  --shared FOLDER. The bot must be stopped.`

const options = {
  ...folders,
  athlete: { type: 'string' },
  ask: { type: 'string' },
  entry: { type: 'string' },
  extend: { type: 'string' },
  answer: { type: 'string' },
  outcome: { type: 'string' },
  ground: { type: 'string' },
  disagree: { type: 'string' },
  words: { type: 'string' },
} as const

/** Requests to amend, from the terminal: what is asked, by when it is answered, and the answer. */
export async function run(argv: readonly string[], out: (line: string) => void): Promise<number> {
  const { values } = parseArgs({ args: [...argv], options })
  const { athlete } = values
  if (athlete === undefined) {
    out(usage)
    return 2
  }
  return atTheDesk(values, out, async (desk) => {
    const submission = submissionOf(athlete, values)
    if (submission) {
      const caller = await callerAt(desk, values.by)
      const outcome = isRefusal(caller) ? caller : await receive(desk, caller, submission)
      if (isRefusal(outcome)) {
        out(outcome.words)
        return 1
      }
    }
    await list(desk, athlete, out)
    return 0
  })
}

function submissionOf(athlete: string, values: Partial<Record<keyof typeof options, string | undefined>>) {
  const { ask, entry, extend, answer, outcome, ground, disagree, words } = values
  if (ask !== undefined) return { kind: 'amendment-request', athlete, entry, words: ask }
  if (extend !== undefined) return { kind: 'amendment-request-extended', athlete, request: extend, words }
  if (answer !== undefined)
    return { kind: 'amendment-request-answered', athlete, request: answer, outcome, ground, words }
  return disagree === undefined
    ? undefined
    : { kind: 'disagreement-stated', athlete, request: disagree, words }
}

async function list(desk: Desk, athlete: string, out: (line: string) => void): Promise<void> {
  const team = await desk.team()
  const chart = await desk.charts.read(athlete)
  const requests = amendRequests(chart)
  if (requests.length === 0) out(`${athlete}: no request to amend.`)
  for (const request of requests) {
    const { asked, extended, answered, disagreement } = request
    const by = answerBy(request, chart, team)
    const late = dayAt(answered?.recordedAt ?? desk.clock.now(), team.clinic.timeZone) > by ? ', LATE' : ''
    const state = answered ? `${answered.outcome}: ${answered.words}` : `open, answer by ${by}`
    out(`${asked.id}${asked.entry ? ` about ${asked.entry}` : ''}: ${asked.words}`)
    out(`  ${state}${late}${extended && !answered ? ' (extended)' : ''}`)
    if (disagreement) out(`  disagrees: ${disagreement.words}`)
  }
  out(
    `${team.clinic.record.law} ${team.clinic.record.answerWithinDays} days, once ${team.clinic.record.extensionDays} more.`,
  )
}
