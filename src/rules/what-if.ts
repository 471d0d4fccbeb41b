import { type Chart, checkInOf, readChart } from '../chart/chart.ts'
import { CheckIn } from '../chart/check-in.ts'
import { dayAt, type Instant } from '../chart/day.ts'
import type { Entry } from '../chart/entries.ts'
import { SessionDone } from '../chart/session.ts'
import { type SignGroup, signGroups, signs } from '../chart/signs.ts'
import type { Refusal } from './decision.ts'

/**
 * The chart as it would read had one answer been another: of this morning, or of the last run. `change` is
 * `name=value` with the name as in the entry or in words with hyphens: worst-pain=3, swelling=yes,
 * pain-during=2, soreness=warm-up-stayed, sign=chest-pain. Nothing is written anywhere.
 */
export function whatIf(chart: Chart, change: string, now: Instant): Chart | Refusal {
  const [, name, value] = /^([a-zA-Z-]+)=(.+)$/.exec(change.trim()) ?? []
  if (name === undefined || value === undefined) return refuse('Say it as worst-pain=3.')
  const field = name.replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase())
  const today = checkInOf(chart, dayAt(now, chart.enrolment?.timeZone ?? 'UTC'))
  if (!today) return refuse('There is no check-in today whose answers could be others.')
  const last = chart.sessions.at(-1)
  if (field === 'sign' || field in CheckIn.shape) {
    const other = field === 'sign' ? withSign(today, value) : { ...today, [field]: literalOf(value) }
    return other ? changed(chart, today, CheckIn.safeParse(other)) : refuse(`There is no sign ${value}.`)
  }
  if (field in SessionDone.shape) {
    if (!last) return refuse('No run is logged yet.')
    return changed(chart, last, SessionDone.safeParse({ ...last, [field]: literalOf(value) }))
  }
  return refuse(`There is no answer called ${name}. ${known()}`)
}

type Parsed = { success: true; data: Entry } | { success: false; error: { issues: { message: string }[] } }

function changed(chart: Chart, entry: Entry, other: Parsed): Chart | Refusal {
  if (!other.success) return refuse(other.error.issues[0]?.message ?? 'That is not an answer.')
  return readChart(
    chart.athlete,
    chart.entries.map((one) => (one === entry ? other.data : one)),
  )
}

function withSign(today: CheckIn, sign: string): object | undefined {
  const group = signGroups.find((name) => sign in signs[name as SignGroup])
  if (!group) return undefined
  const ticked = (today.signs as Record<string, readonly string[] | undefined>)[group] ?? []
  return { ...today, signs: { ...today.signs, [group]: [...new Set([...ticked, sign])] } }
}

function literalOf(text: string): string | number | boolean {
  if (/^-?\d+(\.\d+)?$/.test(text)) return Number(text)
  return text === 'true' ? true : text === 'false' ? false : text
}

function known(): string {
  return 'There are worst-pain, morning-pain, swelling, sign of the morning; pain-before, pain-during, pain-after, rpe, soreness of the last run.'
}

function refuse(words: string): Refusal {
  return { refused: 'cannot-ask', words }
}
