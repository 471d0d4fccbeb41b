import { existsSync, readFileSync } from 'node:fs'
import { parseArgs } from 'node:util'
import { previewMeasures, type Verdict, writeMeasures } from '../desk/import-measures.ts'
import { readMeasures } from '../reports/measures-csv.ts'
import { isRefusal } from '../rules/decision.ts'
import { atTheDesk, callerAt, folders } from './terminal-desk.ts'

const usage = `import-measures --file FILE.csv --by ID           shows what would be written, line by line, and writes nothing
import-measures --file FILE.csv --by ID --write          writes when every line passes, else nothing
import-measures --file FILE.csv --by ID --write-passing  writes the lines that pass, and says which were left out
columns: athlete, measure, day, value, other_side, note. also: --data FOLDER  --shared FOLDER. The bot must be stopped.`

const options = {
  ...folders,
  file: { type: 'string' },
  write: { type: 'boolean', default: false },
  'write-passing': { type: 'boolean', default: false },
} as const

/** Measures from a CSV: a preview, refusals line by line, and nothing written unless all pass or the rest is accepted. */
export async function run(argv: readonly string[], out: (line: string) => void): Promise<number> {
  const { values } = parseArgs({ args: [...argv], options })
  const { file, by } = values
  if (file === undefined || by === undefined) {
    out(usage)
    return 2
  }
  if (!existsSync(file)) {
    out(`There is no file ${file}.`)
    return 2
  }
  const lines = readMeasures(readFileSync(file, 'utf8'))
  return atTheDesk(values, out, async (desk) => {
    const caller = await callerAt(desk, by)
    if (isRefusal(caller)) {
      out(caller.words)
      return 2
    }
    const verdicts = await previewMeasures(desk, caller, lines)
    for (const verdict of verdicts) out(inWords(verdict))
    const passing = verdicts.filter((verdict) => verdict.take).length
    const refused = verdicts.length - passing
    out(`${passing} of ${verdicts.length} lines pass.`)
    const mayWrite = values['write-passing'] || (values.write && refused === 0)
    if (!mayWrite || passing === 0) {
      out(
        values.write && refused > 0
          ? 'Nothing was written: mend the lines, or accept the others with --write-passing.'
          : 'Nothing was written.',
      )
      return refused > 0 ? 1 : 0
    }
    const late = await writeMeasures(desk, caller, verdicts)
    for (const verdict of late) out(inWords(verdict))
    out(`${passing - late.length} written, ${refused + late.length} left out.`)
    return refused + late.length > 0 ? 1 : 0
  })
}

function inWords({ line, words, take }: Verdict): string {
  return `line ${line}: ${take ? 'ok' : 'REFUSED'}: ${words}`
}
