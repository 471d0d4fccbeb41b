import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { join, relative } from 'node:path'
import { cruise, type IReporterOutput } from 'dependency-cruiser'
import extractTSConfig from 'dependency-cruiser/config-utl/extract-ts-config'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'

const root = new URL('..', import.meta.url).pathname
const rules = createRequire(import.meta.url)('../.config/dependency-cruiser.cjs')
const copy = mkdtempSync(join(tmpdir(), 'sanderling-architecture-'))

beforeAll(() => {
  cpSync(join(root, 'src'), join(copy, 'src'), { recursive: true })
  cpSync(join(root, 'shared'), join(copy, 'shared'), { recursive: true })
  cpSync(join(root, 'tsconfig.json'), join(copy, 'tsconfig.json'))
  cpSync(join(root, 'package.json'), join(copy, 'package.json'))
  symlinkSync(join(root, 'node_modules'), join(copy, 'node_modules'))
})

afterAll(() => rmSync(copy, { recursive: true, force: true }))

describe('a file imports from its own folder and from folders above it, never from below or beside', () => {
  test('no import breaks a rule, and the checker really read the files', async () => {
    const { violations, modules } = await cruised(root)
    expect(violations).toEqual([])
    expect(modules).toBeGreaterThan(100)
  })

  const faults = [
    { file: 'src/rules', imports: '../../desk/desk.ts', breaks: 'rules-looks-up-only' },
    { file: 'src/chart', imports: '../../rules/triage.ts', breaks: 'chart-looks-up-only' },
    { file: 'src/stores', imports: '../../slack/face.ts', breaks: 'stores-knows-no-neighbour' },
    { file: 'src/slack', imports: '../../config.ts', breaks: 'slack-knows-no-neighbour' },
    { file: 'src/rules', imports: 'node:fs', breaks: 'pure-has-no-edges' },
    { file: 'src/rules', imports: 'pino', breaks: 'pure-knows-few-libraries' },
    { file: 'src/desk', imports: '@slack/bolt', breaks: 'platform-only-in-the-face' },
  ]
  for (const fault of faults)
    test(`a planted import of ${fault.imports} in ${fault.file} is caught`, async () => {
      const folder = mkdtempSync(join(copy, fault.file, 'planted-'))
      writeFileSync(
        join(folder, 'fault.ts'),
        `import * as planted from '${fault.imports}'\nexport { planted }\n`,
      )
      const { violations } = await cruised(copy)
      rmSync(folder, { recursive: true })
      expect(violations).toEqual([fault.breaks])
    })
})

describe('the pure folders stay pure', () => {
  const pure = filesUnder('src').filter((file) => /^src\/(science|chart|rules)\//.test(file))
  const absent = [
    { what: 'the clock', pattern: /Date\.now|new Date\(\)|Temporal\.Now|performance\.now/ },
    { what: 'chance', pattern: /Math\.random|randomUUID|randomBytes/ },
    { what: 'waiting', pattern: /\bawait\b|\basync\b|\bsetTimeout\b/ },
  ]
  for (const { what, pattern } of absent)
    test(`science, chart and rules never touch ${what}`, () => {
      expect(pure.filter((file) => pattern.test(codeOf(file)))).toEqual([])
    })

  test('the patterns bite', () => {
    expect(absent.map(({ pattern }) => pattern.test('await Math.random() + Date.now()'))).toEqual([
      true,
      true,
      true,
    ])
  })
})

describe('the whole tree', () => {
  const sources = [...filesUnder('src'), ...filesUnder('tests')].filter((file) => file.endsWith('.ts'))

  test('the environment is read in config.ts and nowhere else', () => {
    const readers = filesUnder('src').filter((file) => /process\.env\b/.test(codeOf(file)))
    expect(readers).toEqual(['src/config.ts'])
  })

  test('a source file is one idea: none is longer than 250 lines', () => {
    const long = (file: string) => readFileSync(join(root, file), 'utf8').split('\n').length > 251
    expect(sources.filter((file) => file.startsWith('src/') && long(file))).toEqual([])
  })

  test('no file is named after nothing in particular', () => {
    const vague =
      /(^|\/)(index|types|interfaces|utils?|helpers?|common|lib|core|manager|service|handler|processor|context|info)\.ts$/
    expect(sources.filter((file) => vague.test(file))).toEqual([])
  })

  test('the top level holds what was agreed, dotfiles apart', () => {
    const agreed = [
      'DEVELOPERS.md',
      'README.md',
      'manifests',
      'package-lock.json',
      'package.json',
      'shared',
      'src',
      'tests',
      'tsconfig.json',
    ]
    const there = readdirSync(root).filter(
      (name) => !name.startsWith('.') && !['node_modules', 'data', 'coverage'].includes(name),
    )
    expect(there.sort()).toEqual(agreed)
  })

  test('every decision that the code cites stands in DEVELOPERS.md', () => {
    const decided = readFileSync(join(root, 'DEVELOPERS.md'), 'utf8')
    const cited = new Set(
      sources.flatMap((file) =>
        [...readFileSync(join(root, file), 'utf8').matchAll(/\((D\d+)\)/g)].map((m) => m[1]),
      ),
    )
    expect([...cited].filter((number) => !new RegExp(`\\b${number}\\b`).test(decided))).toEqual([])
    expect(cited.size).toBeGreaterThan(0)
  })
})

async function cruised(base: string): Promise<{ violations: string[]; modules: number }> {
  const result = (await cruise(
    ['src'],
    { ruleSet: rules, ...rules.options, validate: true, baseDir: base },
    undefined,
    { tsConfig: extractTSConfig(join(root, 'tsconfig.json')) },
  )) as IReporterOutput
  if (typeof result.output === 'string') throw new Error('the checker gave no result')
  return {
    violations: result.output.summary.violations.map((violation) => violation.rule.name),
    modules: result.output.summary.totalCruised,
  }
}

function filesUnder(folder: string): string[] {
  return readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(root, join(entry.parentPath, entry.name)))
    .sort()
}

/** The file without its comments and quoted words: those may speak of clocks. */
function codeOf(file: string): string {
  return readFileSync(join(root, file), 'utf8')
    .replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, '')
    .replace(/'(?:[^'\\\n]|\\.)*'|`(?:[^`\\]|\\.)*`/g, "''")
}
