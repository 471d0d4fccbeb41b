import { writeFile } from 'node:fs/promises'
import { cpus } from 'node:os'
import { parseArgs } from 'node:util'
import { type Row, tableOf } from './bench-row.ts'

type Group = { rows(): Promise<Row[]> }

/** Every group loads only what it measures. */
const groups: Record<string, () => Promise<Group>> = {
  rules: () => import('./bench-rules.ts'),
  store: () => import('./bench-store.ts'),
  rounds: () => import('./bench-rounds.ts'),
  'check-in': () => import('./bench-check-in.ts'),
  start: () => import('./bench-start.ts'),
  postgres: () => import('./bench-postgres.ts'),
}

/**
 * `bench [--json FILE] [--only GROUP]`: what this machine does now, beside the bare parts it is made of, in one run.
 * Never a test: it answers 0 whatever it finds.
 */
export async function run(argv: readonly string[], out: (line: string) => void): Promise<number> {
  const options = { json: { type: 'string' }, only: { type: 'string', multiple: true } } as const
  const { values } = parseArgs({ args: [...argv], options })
  const wanted = values.only ?? Object.keys(groups)
  const rows: Row[] = []
  for (const name of wanted) {
    const group = groups[name]
    if (!group) {
      out(`There is no group ${name}; there are ${Object.keys(groups).join(', ')}.`)
      return 2
    }
    process.stderr.write(`${name} ...\n`)
    rows.push(...(await (await group()).rows()))
  }
  out(`${new Date().toISOString().slice(0, 10)}, Node ${process.version}, ${cpus().length} cores`)
  out('')
  for (const line of tableOf(rows)) out(line)
  if (values.json) await writeFile(values.json, `${JSON.stringify(rows, null, 2)}\n`)
  return 0
}
