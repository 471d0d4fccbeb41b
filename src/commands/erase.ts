import { parseArgs } from 'node:util'
import { dayAt } from '../chart/day.ts'
import { clinicSubject } from '../chart/roster.ts'
import type { Desk } from '../desk/desk.ts'
import { type Erasure, erase } from '../desk/erasing.ts'
import { isRefusal } from '../rules/decision.ts'
import { notReached } from '../rules/journal-erasure.ts'
import { keepUntil } from '../rules/retention.ts'
import { atTheDesk, callerAt, folders } from './terminal-desk.ts'

const usage = `erase                                  lists the charts whose time of keeping is over
erase --athlete ID --why WORDS --law WORDS --sure ID [--before-its-time]
                                       erases a chart for good and leaves who, when, why and which law
also: --by ID (a clinic lead)  --data FOLDER  --shared FOLDER. The bot must be stopped.
The athlete is erased from the clinic's journal too. Do not write the name into WORDS: they stay. Backups, exports and what
the chat platform keeps are not reached.`

const options = {
  ...folders,
  athlete: { type: 'string' },
  why: { type: 'string' },
  law: { type: 'string' },
  sure: { type: 'string' },
  'before-its-time': { type: 'boolean', default: false },
} as const

/** Erasure, where the clinic lead confirms that the law allows it. */
export async function run(argv: readonly string[], out: (line: string) => void): Promise<number> {
  const { values } = parseArgs({ args: [...argv], options })
  const { athlete, why, law, sure } = values
  if (athlete === undefined) return atTheDesk(values, out, (desk) => list(desk, out))
  if (!why || !law || sure !== athlete) {
    out(usage)
    return 2
  }
  return atTheDesk(values, out, async (desk) => {
    const caller = await callerAt(desk, values.by)
    const erasing = { why, law, beforeItsTime: values['before-its-time'] }
    const outcome = isRefusal(caller) ? caller : await erase(desk, caller, athlete, erasing)
    if (isRefusal(outcome)) {
      out(outcome.words)
      return 1
    }
    const { erased, journal } = outcome
    out(
      `${athlete}: ${erased.entries} entries erased by ${erased.author} at ${erased.recordedAt}. ${erased.law}`,
    )
    out(inJournal(journal))
    for (const words of notReached) out(words)
    return 0
  })
}

function inJournal(journal: Erasure['journal']): string {
  if (journal === 'worked-here')
    return 'The clinic’s journal still names them: they also worked here, and what they signed must stay signed.'
  return journal === 0
    ? 'The clinic’s journal did not name them.'
    : `The clinic’s journal names them no more: ${journal} of its entries gave way to tombstones.`
}

async function list(desk: Desk, out: (line: string) => void): Promise<number> {
  const team = await desk.team()
  const today = dayAt(desk.clock.now(), team.clinic.timeZone)
  let over = 0
  for (const { subject } of await desk.store.index()) {
    if (subject === clinicSubject) continue
    const until = keepUntil(await desk.charts.read(subject), team)
    if (until === undefined || until >= today) continue
    over += 1
    out(`${subject}: kept until ${until}.`)
  }
  out(
    `${over} charts are past their time; kept ${team.clinic.record.keepYears} years after the last page. Nothing is erased by itself.`,
  )
  return 0
}
