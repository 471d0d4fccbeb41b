import { parseArgs } from 'node:util'
import { dayAt } from '../chart/day.ts'
import { clinicSubject } from '../chart/roster.ts'
import type { Desk } from '../desk/desk.ts'
import { erase } from '../desk/erasing.ts'
import { isRefusal } from '../rules/decision.ts'
import { keepUntil } from '../rules/retention.ts'
import { atTheDesk, callerAt, folders } from './terminal-desk.ts'

const usage = `erase                                  lists the charts whose time of keeping is over
erase --athlete ID --why WORDS --law WORDS --sure ID [--before-its-time]
                                       erases a chart for good and leaves who, when, why and which law
also: --by ID (a clinic lead)  --data FOLDER  --shared FOLDER. The bot must be stopped.
Copies made before (backups, exports, files put aside) are not reached: erase them too.`

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
    out(
      `${athlete}: ${outcome.entries} entries erased by ${outcome.author} at ${outcome.recordedAt}. ${outcome.law}`,
    )
    out('Copies made before (backups, exports, files put aside) are not reached: erase them too.')
    return 0
  })
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
