import { type ParseArgsConfig, parseArgs } from 'node:util'
import { isRefusal, type Refusal, refuse } from '../science/refusal.ts'

/** Options as typed, or a refusal in one line: an unknown option is bad input, not a crash. */
export function readOptions<T extends NonNullable<ParseArgsConfig['options']>>(
  argv: readonly string[],
  options: T,
) {
  try {
    return parseArgs({ args: [...argv], options, strict: true, allowPositionals: false }).values
  } catch (error) {
    const [first] = (error instanceof Error ? error.message : String(error)).split('\n')
    const accepted = Object.keys(options).map((name) => `--${name}`)
    return refuse('unreadable', `${first} Accepted: ${accepted.join(' ')}.`)
  }
}

/** Reads an option when it was given; what was not given stays undefined. */
export function given<T>(text: string | undefined, read: (text: string) => T): T | undefined {
  return text === undefined ? undefined : read(text)
}

/** The first refusal among answers, so that one line names one thing to mend. */
export function firstRefusal(...answers: readonly unknown[]): Refusal | undefined {
  return answers.find(isRefusal)
}

/** Bad input: one line on standard error, exit code 2. */
export function turnAway({ words }: Refusal): number {
  process.stderr.write(`${words.replaceAll(/\s+/g, ' ')}\n`)
  return 2
}
