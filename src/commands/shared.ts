import { existsSync, mkdirSync, statSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { schemaFiles } from '../desk/schemas.ts'
import { faultsIn } from '../desk/shared-check.ts'
import { refuse } from '../science/refusal.ts'
import { turnAway } from './options.ts'

/**
 * `shared check [FOLDER]`: whether a clinic's own folder can be used; 1 with file, line, what is wrong and what is
 * allowed. `shared schemas [FOLDER]`: writes the JSON schemas beside it, for editors that check while one types.
 */
export async function run(argv: readonly string[], out: (line: string) => void): Promise<number> {
  const [what, folder = 'shared', ...rest] = argv
  if ((what !== 'check' && what !== 'schemas') || rest.length > 0)
    return turnAway(refuse('say-more', 'Say shared check [FOLDER] or shared schemas [FOLDER].'))
  if (!existsSync(folder) || !statSync(folder).isDirectory())
    return turnAway(refuse('unreadable', `There is no folder ${folder}.`))
  return what === 'check' ? check(folder, out) : schemas(folder, out)
}

function check(folder: string, out: (line: string) => void): number {
  const faults = faultsIn(folder)
  for (const fault of faults) out(fault)
  out(faults.length === 0 ? `${folder} can be used.` : `${faults.length} to mend in ${folder}.`)
  return faults.length === 0 ? 0 : 1
}

function schemas(folder: string, out: (line: string) => void): number {
  const into = join(folder, 'schemas')
  mkdirSync(into, { recursive: true })
  for (const { name, text } of schemaFiles()) {
    writeFileSync(join(into, name), text)
    out(join(into, name))
  }
  return 0
}
