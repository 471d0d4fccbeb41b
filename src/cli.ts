type Command = {
  readonly run: (argv: readonly string[], out: (line: string) => void) => Promise<number>
}

const commands: Record<string, () => Promise<Command>> = {
  cost: () => import('./commands/cost.ts'),
  load: () => import('./commands/load.ts'),
  figures: () => import('./commands/figures.ts'),
  'bench-science': () => import('./commands/bench-science.ts'),
}

const [name = '', ...argv] = process.argv.slice(2)
const command = Object.hasOwn(commands, name) ? commands[name] : undefined
if (command === undefined) {
  process.stderr.write(`sanderling: one of ${Object.keys(commands).join(', ')} is accepted.\n`)
  process.exitCode = 2
} else {
  process.exitCode = await (await command()).run(argv, (line) => process.stdout.write(`${line}\n`))
}
