import type { Clinic } from '../chart/clinic.ts'
import {
  type ClinicSettings,
  completed,
  settingsIn,
  type WholeSettings,
  withSettings,
} from '../chart/clinic-settings.ts'
import type { Refusal } from './decision.ts'

/** A number that may be tightened: which way is the tighter, and how it is said. */
export type Tightened = {
  readonly name: Exclude<keyof WholeSettings, 'quietFrom' | 'quietUntil'>
  readonly tighter: 'less' | 'more'
  readonly words: string
}

/** In the order in which a clinic lead reads them. Quiet hours stand for themselves: they may be made shorter. */
export const tightened: readonly Tightened[] = [
  {
    name: 'emergencyAckMinutes',
    tighter: 'less',
    words: 'Emergency call: minutes until the next person is called',
  },
  {
    name: 'emergencyCloseMinutes',
    tighter: 'less',
    words: 'Emergency call: minutes until a reminder to close it',
  },
  {
    name: 'urgentAckMinutes',
    tighter: 'less',
    words: 'Urgent call: minutes until the next person is called',
  },
  { name: 'urgentCloseMinutes', tighter: 'less', words: 'Urgent call: minutes until a reminder to close it' },
  {
    name: 'backOnListMinutes',
    tighter: 'less',
    words: 'After that reminder: minutes until the call is on the list again',
  },
  { name: 'remindMinutes', tighter: 'less', words: 'Check-in: minutes until the one reminder' },
  {
    name: 'cutOffMinutes',
    tighter: 'less',
    words: 'Check-in: minutes until a missing answer is written down',
  },
  { name: 'missedDays', tighter: 'less', words: 'Days without an answer until the therapist hears of it' },
  {
    name: 'surgeryWeeks',
    tighter: 'more',
    words: 'Weeks after surgery in which fever, wound and calf are asked',
  },
  { name: 'answerDays', tighter: 'less', words: 'Days to answer a request to correct the record' },
  { name: 'extensionDays', tighter: 'less', words: 'Days by which that answer may be put off once' },
  { name: 'keepYears', tighter: 'more', words: 'Years that a record is kept at least' },
]

/**
 * The clinic as it stands: its file, with what was tightened from chat. Of file and chat the tighter holds, so that a
 * file that was made stricter later is never loosened by an older choice (D21).
 */
export function clinicNow(file: Clinic, chosen: ClinicSettings): Clinic {
  if (Object.keys(chosen).length === 0) return file
  const base = settingsIn(file)
  const quiet = completed(base, chosen)
  const numbers = tightened.map(({ name, tighter }) => {
    const wanted = chosen[name] ?? base[name]
    return [name, tighter === 'less' ? Math.min(base[name], wanted) : Math.max(base[name], wanted)] as const
  })
  const hours = isInside(base, quiet) ? quiet : base
  return withSettings(file, {
    ...base,
    ...Object.fromEntries(numbers),
    quietFrom: hours.quietFrom,
    quietUntil: hours.quietUntil,
  })
}

/** Why these cannot be set; undefined when they can. Never looser than the file, and never so that one undoes another. */
export function settingsFault(file: Clinic, chosen: ClinicSettings): Refusal | undefined {
  const base = settingsIn(file)
  const after = completed(base, chosen)
  const loose = tightened.find(({ name, tighter }) =>
    tighter === 'less' ? after[name] > base[name] : after[name] < base[name],
  )
  if (loose)
    return refuse(
      `${loose.tighter === 'less' ? 'At most' : 'At least'} ${base[loose.name]}, as in clinic.json: it may be tightened here, never loosened.`,
      `settings.${loose.name}`,
    )
  if (after.quietFrom === after.quietUntil)
    return refuse('Quiet hours need two different times.', 'settings.quietUntil')
  if (!isInside(base, after))
    return refuse(
      `Inside ${base.quietFrom} to ${base.quietUntil}, as in clinic.json: they may be shorter here, never longer.`,
      `settings.${after.quietFrom === base.quietFrom ? 'quietUntil' : 'quietFrom'}`,
    )
  return order.find(({ fault }) => fault(after))?.refusal
}

type Quiet = Pick<WholeSettings, 'quietFrom' | 'quietUntil'>

const order: readonly { readonly fault: (s: WholeSettings) => boolean; readonly refusal: Refusal }[] = [
  {
    fault: (s) => s.cutOffMinutes <= s.remindMinutes,
    refusal: refuse('After the reminder, or nobody is reminded.', 'settings.cutOffMinutes'),
  },
  {
    fault: (s) => s.emergencyCloseMinutes < s.emergencyAckMinutes,
    refusal: refuse('Not before the next person is called.', 'settings.emergencyCloseMinutes'),
  },
  {
    fault: (s) => s.urgentCloseMinutes < s.urgentAckMinutes,
    refusal: refuse('Not before the next person is called.', 'settings.urgentCloseMinutes'),
  },
]

/** Whether one stretch of the night lies inside another; both may go past midnight. */
function isInside(outer: Quiet, inner: Quiet): boolean {
  const day = 24 * 60
  const start = (minutesOf(inner.quietFrom) - minutesOf(outer.quietFrom) + day) % day
  return start + lengthOf(inner) <= lengthOf(outer)
}

function lengthOf({ quietFrom, quietUntil }: Quiet): number {
  return (minutesOf(quietUntil) - minutesOf(quietFrom) + 24 * 60) % (24 * 60)
}

function minutesOf(wall: string): number {
  const [hours = '0', minutes = '0'] = wall.split(':')
  return Number(hours) * 60 + Number(minutes)
}

function refuse(words: string, field: string): Refusal {
  return { refused: 'looser', words, field }
}
