import { parseArgs } from 'node:util'
import { readStoreSettings, type StoreSettings } from '../config.ts'
import { StoreClosed, StoreDamaged } from '../desk/ports.ts'
import { chartKeys, coverOf } from '../stores/cover.ts'
import { restoreChart, verifyFolder } from '../stores/mend.ts'
import { MoveRefused } from '../stores/moving.ts'
import { rotateKeys } from '../stores/rotate.ts'
import { migrateDatabase, move } from './store-move.ts'

type Out = (line: string) => void

const usage = `sanderling store verify                  reads every chart and says what is wrong
sanderling store restore SUBJECT         cuts a damaged chart back to what can be trusted; the old file stays beside it
sanderling store rotate                  writes every chart under the first of SANDERLING_CHART_KEYS
sanderling store migrate                 takes the database to this program's schema
sanderling store move --from lowdb --to postgres   moves a stopped clinic and compares it hash by hash; or back
The folder is SANDERLING_DATA or --data FOLDER, the database SANDERLING_DATABASE.`

/** `sanderling store …`: looks after kept charts. Answers with the exit code. */
export async function run(
  argv: readonly string[],
  out: Out,
  settings: StoreSettings = readStoreSettings(),
): Promise<number> {
  const options = { data: { type: 'string' }, from: { type: 'string' }, to: { type: 'string' } } as const
  const { positionals, values } = parseArgs({ args: [...argv], allowPositionals: true, options })
  const where = values.data === undefined ? settings : { ...settings, dataFolder: values.data }
  try {
    return await obey(positionals, values, { out, where })
  } catch (error) {
    const said = error instanceof StoreClosed || error instanceof StoreDamaged || error instanceof MoveRefused
    if (!said) throw error
    out(error.words)
    return 1
  }
}

async function obey(
  [verb, subject]: readonly string[],
  { from, to }: { from?: string | undefined; to?: string | undefined },
  { out, where }: { out: Out; where: StoreSettings },
): Promise<number> {
  if (verb === 'verify') return verify(where, out)
  if (verb === 'restore' && subject !== undefined) return restore(where, subject, out)
  if (verb === 'rotate') return rotate(where, out)
  if (verb === 'migrate') return migrateDatabase(where, out)
  if (verb === 'move' && from === 'lowdb' && to === 'postgres') return move(where, 'to-database', out)
  if (verb === 'move' && from === 'postgres' && to === 'lowdb') return move(where, 'to-folder', out)
  out(usage)
  return 2
}

const coverFrom = ({ chartKeys: text }: StoreSettings) => coverOf(chartKeys(text))

async function verify(where: StoreSettings, out: Out): Promise<number> {
  const charts = await verifyFolder(where.dataFolder, coverFrom(where))
  for (const { subject, entries, lines, wrong, torn } of charts) {
    const size = `${subject.padEnd(24)} ${String(entries).padStart(6)} entries ${String(lines).padStart(6)} writes`
    if (wrong) out(`${size}  DAMAGED line ${wrong.line}: ${wrong.why}`)
    else if (torn) out(`${size}  ok, and ${torn} bytes of a write that was never acknowledged`)
    else out(`${size}  ok`)
  }
  const damaged = charts.filter(({ wrong }) => wrong)
  out(`${charts.length} charts, ${damaged.length} damaged`)
  for (const { subject } of damaged)
    out(`mend it: sanderling store restore ${subject} --data ${where.dataFolder}`)
  return damaged.length > 0 ? 1 : 0
}

async function restore(where: StoreSettings, subject: string, out: Out): Promise<number> {
  const restored = await restoreChart(where.dataFolder, subject, coverFrom(where))
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

async function rotate(where: StoreSettings, out: Out): Promise<number> {
  const [first] = chartKeys(where.chartKeys)
  const charts = await rotateKeys(where.dataFolder, coverFrom(where))
  if (first) out(`${charts} charts are kept under key ${first.id}. Older keys are needed for backups only.`)
  else out(`${charts} charts were written anew, without a key: SANDERLING_CHART_KEYS is empty.`)
  return 0
}
