import { pathToFileURL } from 'node:url'

type Command = { run(argv: readonly string[], out: (line: string) => void): Promise<number> }

/** What can be typed after `npm run -s sanderling --`; each is loaded only when it is asked for. */
const commands: Record<string, () => Promise<Command>> = {
  prove: () => import('./commands/prove.ts'),
  rehearse: () => import('./commands/rehearse.ts'),
  decide: () => import('./commands/decide.ts'),
  scenario: () => import('./commands/scenario.ts'),
  shared: () => import('./commands/shared.ts'),
  build: () => import('./commands/build.ts'),
  cost: () => import('./commands/cost.ts'),
  load: () => import('./commands/load.ts'),
  figures: () => import('./commands/figures.ts'),
  export: () => import('./commands/export.ts'),
  'import-measures': () => import('./commands/import-measures.ts'),
  'amend-request': () => import('./commands/amend-request.ts'),
  erase: () => import('./commands/erase.ts'),
  'bench-export': () => import('./commands/bench-export.ts'),
  'pictures-report': () => import('./commands/pictures-report.ts'),
  store: () => import('./commands/store.ts'),
  screenshots: () => import('./commands/screenshots.ts'),
  permissions: () => import('./commands/permissions.ts'),
  manifest: () => import('./commands/manifest.ts'),
  torture: () => import('./commands/torture.ts'),
  bench: () => import('./commands/bench.ts'),
}

async function main([name = '', ...argv]: readonly string[]): Promise<number> {
  const command = commands[name]
  if (!command) return turnedAway(`Say one of: ${Object.keys(commands).join(', ')}.`)
  try {
    return await (await command()).run(argv, (line) => process.stdout.write(`${line}\n`))
  } catch (error) {
    if (isOption(error)) return turnedAway(error.message.split('. ')[0] ?? error.message)
    if (isFile(error))
      return turnedAway(`${error.path ?? 'A file that was named'}: ${fileFaults[error.code]}`)
    throw error
  }
}

function turnedAway(words: string): number {
  process.stderr.write(`${words}\n`)
  return 2
}

/** An option that a command does not take, or takes otherwise: somebody's slip, not a bug. */
function isOption(error: unknown): error is Error {
  return error instanceof Error && 'code' in error && String(error.code).startsWith('ERR_PARSE_ARGS_')
}

const fileFaults: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file or folder',
  ENOTDIR: 'this is no folder',
  EISDIR: 'this is a folder, not a file',
  EACCES: 'may not be opened by this user',
}

/** A file that was named and cannot be opened. */
function isFile(error: unknown): error is { readonly path?: string; readonly code: string } {
  const { code = '' } = (error instanceof Error ? error : {}) as NodeJS.ErrnoException
  return code in fileFaults
}

/** Whoever reads on may stop early, as `head` does: then there is nobody to write to. */
function untilReaderLeaves(error: NodeJS.ErrnoException): void {
  if (error.code === 'EPIPE') process.exit(0)
  throw error
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  process.stdout.on('error', untilReaderLeaves)
  process.exitCode = await main(process.argv.slice(2))
}
