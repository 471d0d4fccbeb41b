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
  if (command) return (await command()).run(argv, (line) => process.stdout.write(`${line}\n`))
  process.stderr.write(`Say one of: ${Object.keys(commands).join(', ')}.\n`)
  return 2
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href)
  process.exitCode = await main(process.argv.slice(2))
