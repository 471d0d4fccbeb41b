import { mkdirSync } from 'node:fs'
import { parseArgs } from 'node:util'
import { ExportForm } from '../chart/exported.ts'
import { clinicSubject } from '../chart/roster.ts'
import type { Desk } from '../desk/desk.ts'
import { receive } from '../desk/intake.ts'
import { asHandedTo } from '../reports/confidence.ts'
import type { Paper } from '../reports/sheet.ts'
import { isRefusal } from '../rules/decision.ts'
import type { Caller } from '../rules/permissions.ts'
import { openTray, type Tray } from './export-files.ts'
import { atTheDesk, callerAt, folders } from './terminal-desk.ts'

const usage = `export --athlete ID --as pdf|fhir|csv|ics|all --out FOLDER   the record of one athlete
export --squad COACH --as ... --out FOLDER   of everybody who trains under a coach
export --every --as ... --out FOLDER         of the whole clinic
also: --by ID (who you are; else the clinic lead)  --for WORDS (who is to have it)  --paper A4|LETTER
      --data FOLDER  --shared FOLDER. The bot must be stopped. Every export becomes an entry of the chart.`

const options = {
  ...folders,
  athlete: { type: 'string' },
  squad: { type: 'string' },
  every: { type: 'boolean', default: false },
  as: { type: 'string' },
  out: { type: 'string' },
  for: { type: 'string', default: 'the clinic' },
  paper: { type: 'string', default: 'A4' },
} as const

/** How often a long export says how far it is. */
const sayEvery = 200

/** Hands the record on: written down first, then made, one chart at a time. */
export async function run(argv: readonly string[], out: (line: string) => void): Promise<number> {
  const { values } = parseArgs({ args: [...argv], options })
  const form = ExportForm.safeParse(values.as)
  const paper = papers.get(values.paper.toUpperCase())
  const whose = [values.athlete, values.squad, values.every || undefined].filter((one) => one !== undefined)
  if (!form.success || !paper || values.out === undefined || whose.length !== 1) {
    out(usage)
    return 2
  }
  const folder = values.out
  return atTheDesk(values, out, async (desk) => {
    const caller = await callerAt(desk, values.by)
    if (isRefusal(caller)) {
      out(caller.words)
      return 2
    }
    const athletes = values.athlete ? [values.athlete] : await everybody(desk, values.squad)
    mkdirSync(folder, { recursive: true, mode: 0o700 })
    const tray = await openTray(folder, form.data, {
      paper,
      for: values.for,
      shelf: desk.library,
    })
    const { done, refused } = await exportAll(desk, caller, athletes, tray, out)
    const files = await tray.close()
    out(
      `${done} of ${athletes.length} exported as ${form.data} for ${values.for}, by ${caller.id}: ${files} in ${folder}.`,
    )
    return refused > 0 || done === 0 ? 1 : 0
  })
}

const papers: ReadonlyMap<string, Paper> = new Map([
  ['A4', 'A4'],
  ['LETTER', 'LETTER'],
])

async function everybody(desk: Desk, coach: string | undefined): Promise<readonly string[]> {
  const subjects: string[] = []
  for (const { subject } of await desk.store.index()) {
    if (subject === clinicSubject) continue
    const theirs =
      coach === undefined || (await desk.charts.read(subject)).enrolment?.coaches.includes(coach) === true
    if (theirs) subjects.push(subject)
  }
  return subjects.toSorted()
}

async function exportAll(
  desk: Desk,
  caller: Caller,
  athletes: readonly string[],
  tray: Tray,
  out: (line: string) => void,
): Promise<{ done: number; refused: number }> {
  let done = 0
  let refused = 0
  for (const athlete of athletes) {
    const asked = { kind: 'exported', athlete, what: tray.form, for: tray.whom }
    const accepted = await receive(desk, caller, asked)
    if (isRefusal(accepted)) {
      refused += 1
      out(`${athlete}: ${accepted.words}`)
      continue
    }
    const team = await desk.team()
    await tray.put(asHandedTo(caller.id, accepted.chart, team), team, desk.clock.now())
    done += 1
    if (done % sayEvery === 0) out(`${done} of ${athletes.length} …`)
  }
  return { done, refused }
}
