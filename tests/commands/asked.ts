import { vi } from 'vitest'

type Run = (argv: readonly string[], out: (line: string) => void) => Promise<number>

/** What a command says and how it ends, as a shell would see it. */
export async function asked(run: Run, argv: readonly string[]) {
  const lines: string[] = []
  const errors: string[] = []
  const stderr = vi.spyOn(process.stderr, 'write').mockImplementation((text) => {
    errors.push(String(text))
    return true
  })
  const exit = await run(argv, (line) => lines.push(line)).finally(() => stderr.mockRestore())
  return { exit, out: lines.join('\n'), err: errors.join('') }
}
