import { parseArgs } from 'node:util'
import { StoreClosed } from '../desk/ports.ts'
import { uncovered } from '../stores/line.ts'
import { restoreChart, verifyFolder } from '../stores/mend.ts'

const usage = `sanderling store verify [--data FOLDER]            reads every chart and says what is wrong
sanderling store restore SUBJECT [--data FOLDER]   cuts a damaged chart back to what can be trusted`

/** `sanderling store …`: looks after kept charts. Answers with the exit code. */
export async function run(argv: readonly string[], out: (line: string) => void): Promise<number> {
  const options = { data: { type: 'string', default: 'data' } } as const
  const { positionals, values } = parseArgs({ args: [...argv], allowPositionals: true, options })
  const [verb, subject] = positionals
  try {
    if (verb === 'verify') return await verify(values.data, out)
    if (verb === 'restore' && subject !== undefined) return await restore(values.data, subject, out)
  } catch (error) {
    if (!(error instanceof StoreClosed)) throw error
    out(error.words)
    return 1
  }
  out(usage)
  return 2
}

async function verify(folder: string, out: (line: string) => void): Promise<number> {
  const charts = await verifyFolder(folder, uncovered)
  for (const { subject, entries, lines, wrong, torn } of charts) {
    const size = `${subject.padEnd(24)} ${String(entries).padStart(6)} entries ${String(lines).padStart(6)} writes`
    if (wrong) out(`${size}  DAMAGED line ${wrong.line}: ${wrong.why}`)
    else if (torn) out(`${size}  ok, and ${torn} bytes of a write that was never acknowledged`)
    else out(`${size}  ok`)
  }
  const damaged = charts.filter(({ wrong }) => wrong)
  out(`${charts.length} charts, ${damaged.length} damaged`)
  for (const { subject } of damaged) out(`mend it: sanderling store restore ${subject} --data ${folder}`)
  return damaged.length > 0 ? 1 : 0
}

async function restore(folder: string, subject: string, out: (line: string) => void): Promise<number> {
  const restored = await restoreChart(folder, subject, uncovered)
  if (!restored) {
    out(`${subject}: nothing to mend.`)
    return 0
  }
  const { entries, lastId, lostBytes, legible, keptAside } = restored
  out(
    `${subject}: ${entries} entries can be trusted${lastId === undefined ? '' : `, the last is ${lastId}`}.`,
  )
  out(`${lostBytes} bytes could not be kept. The file as it was: ${keptAside}`)
  for (const id of legible) out(`legible in it, to be looked at by a person: ${id}`)
  return 0
}
