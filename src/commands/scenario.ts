import { Instant } from '../chart/day.ts'
import { readRoster, type Team } from '../chart/roster.ts'
import { ChartFault, chartAt, entriesFrom } from '../desk/chart-file.ts'
import { openLibrary } from '../desk/library.ts'
import { type Expect, Scenario } from '../desk/scenario-file.ts'
import { parseFile, SharedFault } from '../desk/shared-file.ts'
import { type Decided, decide } from '../rules/why.ts'
import { refuse } from '../science/refusal.ts'
import { turnAway } from './options.ts'

/** `scenario FILE...`: golden scenarios; 1 with the differences when a decision is not the one that was written down. */
export async function run(argv: readonly string[], out: (line: string) => void): Promise<number> {
  if (argv.length === 0 || argv.some((arg) => arg.startsWith('-')))
    return turnAway(refuse('say-more', 'Say scenario FILE...: tests/scenarios/*.json.'))
  const { clinic } = openLibrary('shared')
  const team: Team = { clinic, roster: readRoster([]) }
  let failed = 0
  for (const file of argv) {
    try {
      const differences = differencesIn(file, team)
      out(`${differences.length === 0 ? 'as written ' : 'DIFFERENT  '} ${file}`)
      for (const difference of differences) out(`    ${difference}`)
      if (differences.length > 0) failed += 1
    } catch (error) {
      if (error instanceof ChartFault || error instanceof SharedFault)
        return turnAway(refuse('unreadable', error.message))
      throw error
    }
  }
  out(`${argv.length - failed} of ${argv.length} scenarios as written.`)
  return failed === 0 ? 0 : 1
}

/** What differs between the decisions of a scenario file and what it expects; empty when nothing does. */
export function differencesIn(file: string, team: Team): readonly string[] {
  const scenario = parseFile(file, Scenario)
  const entries = entriesFrom(scenario.entries, file)
  const asked = [{ at: scenario.at, expect: scenario.expect }, ...(scenario.then ?? [])]
  return asked.flatMap(({ at, expect }) => {
    const instant = Instant.safeParse(at)
    if (!instant.success)
      throw new ChartFault(`${file}: at: ${at} is not an instant in UTC with milliseconds`)
    const decided = decide(chartAt(entries, instant.data), team, instant.data)
    return differences(decided, expect).map((difference) => `at ${at}: ${difference}`)
  })
}

function differences(decided: Decided, expect: Expect): string[] {
  const found: string[] = []
  for (const name of ['disposition', 'move'] as const)
    if (expect[name] !== undefined && expect[name] !== decided[name])
      found.push(`${name} is ${decided[name]}, expected ${expect[name]}`)
  if (expect.prescription !== undefined)
    found.push(...partsOf(decided.prescription, expect.prescription, 'prescription'))
  const findings = decided.because.map(({ finding }) => finding)
  for (const finding of expect.because ?? [])
    if (!findings.includes(finding)) found.push(`because has ${findings.join(', ')}; expected ${finding}`)
  return found
}

/** Every expected part must be there as it is written; what is not written may be anything. */
function partsOf(actual: unknown, expected: unknown, path: string): string[] {
  if (typeof expected !== 'object' || expected === null || typeof actual !== 'object' || actual === null)
    return actual === expected ? [] : [`${path} is ${show(actual)}, expected ${show(expected)}`]
  return Object.entries(expected).flatMap(([key, part]) =>
    partsOf((actual as Record<string, unknown>)[key], part, `${path}.${key}`),
  )
}

function show(value: unknown): string {
  if (value === undefined) return 'absent'
  const text = JSON.stringify(value)
  return text.length > 120 ? `${text.slice(0, 117)}...` : text
}
