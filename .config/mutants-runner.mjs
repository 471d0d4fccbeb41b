/**
 * Runs the tests of rules and science under mutation in one process: the test files are loaded once, and for each
 * mutant only the tests that reach it are run again, the quickest first, up to the first failure. Loading a test
 * file anew for every mutant, as the ordinary runner does, takes a hundred times as long. Each `describe` or `test`
 * at the top of a file counts as one test; its body is run anew every time.
 */
import { readdirSync } from 'node:fs'
import { register } from 'node:module'
import { resolve } from 'node:path'
import { pathToFileURL } from 'node:url'
import { expect } from 'vitest'

export { expect }

/** Thousands of generated athletes and years minute by minute would take hours, and so would the proof by cases. */
const folders = ['tests/rules', 'tests/science', 'tests/science/figures']
const single = [
  'tests/scenarios.test.ts',
  ...['rounds', 'host-clock', 'bad-weather'].map((name) => `tests/desk/${name}.test.ts`),
]
const leftOut = [
  'tests/rules/properties.test.ts',
  'tests/rules/year.test.ts',
  'tests/rules/red-flags-proof.test.ts',
  'tests/science/response-curve-athletes.test.ts',
]

const units = new Map()
let file = ''
let inFile = { before: [], after: [] }
let running

export function test(name, run) {
  if (running) running.tests.push({ name, before: running.before.flat(), run })
  else add(name, () => test(name, run))
}
export function describe(name, body) {
  if (!running) return add(name, () => describe(name, body))
  running.before.push([])
  body()
  running.before.pop()
}
/** At the top of a file: before every test of that file. */
export function beforeEach(run) {
  if (running) running.before.at(-1).push(run)
  else inFile.before.push(run)
}
/** At the top of a file alone. */
export function afterEach(run) {
  inFile.after.push(run)
}
test.each = eachOf(test)
describe.each = eachOf(describe)

function eachOf(one) {
  return (rows) => (name, run) => {
    for (const row of rows) one(name, () => (Array.isArray(row) ? run(...row) : run(row)))
  }
}

function add(name, collect) {
  const id = `${file} ${units.size} ${name}`
  units.set(id, {
    id,
    file,
    name: `${file}: ${name}`,
    inFile,
    collect,
    ms: Number.POSITIVE_INFINITY,
  })
}

/** Throws what the first failing test throws. */
async function runUnit({ inFile: { before, after }, collect }) {
  running = { tests: [], before: [before] }
  try {
    collect()
    const { tests } = running
    for (const one of tests) {
      for (const first of one.before) await first()
      await one.run()
      for (const last of after) await last()
    }
  } finally {
    running = undefined
  }
}

async function load() {
  const here = JSON.stringify(import.meta.url)
  const hook = `export const resolve = (name, from, next) => name === 'vitest' ? { url: ${here}, shortCircuit: true } : next(name, from)`
  register(`data:text/javascript,${encodeURIComponent(hook)}`)
  const found = folders.flatMap((folder) => readdirSync(folder).map((name) => `${folder}/${name}`))
  for (const name of [...found, ...single]) {
    if (!name.endsWith('.test.ts') || leftOut.includes(name)) continue
    file = name
    inFile = { before: [], after: [] }
    await import(pathToFileURL(resolve(name)).href)
  }
}

/** A slow test counts for the files of its own name alone (session.test.ts for session.ts), a very slow one for none. */
const slowMs = 400
const verySlowMs = 2000
const firstWord = (path) => path.split('/').at(-1).split(/[.-]/)[0]
const countsFor = (unit, path) =>
  unit.ms < slowMs || (unit.ms < verySlowMs && firstWord(unit.file) === firstWord(path))

const stryker = () => (globalThis.__stryker__ ??= {})

const runner = {
  /** Nothing needs loading anew: what runs while a file is loaded is left out ("ignoreStatic"). */
  capabilities: () => ({ reloadEnvironment: true }),
  /** Every worker runs all tests once, a slow one twice, so that each knows how long they take when warm. */
  async init() {
    await load()
    for (const unit of units.values()) {
      stryker().currentTestId = unit.id
      unit.failed =
        (await failureOf(unit)) ??
        (unit.ms < slowMs || unit.ms > 10 * slowMs ? undefined : await failureOf(unit))
      stryker().currentTestId = undefined
    }
  },
  dryRun() {
    const tests = [...units.values()].map(({ id, name, ms, failed }) => {
      const told = { id, name, timeSpentMs: Math.ceil(Math.min(ms, 1e6)) }
      return failed ? { ...told, status: 1, failureMessage: failed } : { ...told, status: 0 }
    })
    return { status: 'complete', tests, mutantCoverage: stryker().mutantCoverage }
  },
  async mutantRun({ activeMutant, testFilter, hitLimit }) {
    const ns = stryker()
    Object.assign(ns, {
      activeMutant: activeMutant.id,
      hitCount: hitLimit === undefined ? undefined : 0,
      hitLimit,
    })
    const reach = testFilter ? testFilter.map((id) => units.get(id)).filter(Boolean) : [...units.values()]
    const wanted = reach.filter((unit) => countsFor(unit, activeMutant.fileName))
    let nrOfTests = 0
    try {
      for (const unit of wanted.sort((a, b) => a.ms - b.ms)) {
        nrOfTests += 1
        const failed = await failureOf(unit)
        if (ns.hitLimit !== undefined && ns.hitCount > ns.hitLimit)
          return { status: 'timeout', reason: 'hit limit' }
        if (failed) return { status: 'killed', killedBy: [unit.id], failureMessage: failed, nrOfTests }
      }
      return { status: 'survived', nrOfTests }
    } finally {
      Object.assign(ns, { activeMutant: undefined, hitCount: undefined, hitLimit: undefined })
    }
  },
}

async function failureOf(unit) {
  const began = performance.now()
  try {
    await runUnit(unit)
    unit.ms = Math.min(unit.ms, performance.now() - began)
    return undefined
  } catch (error) {
    return String(error?.message ?? error).slice(0, 200) || 'failed'
  }
}

const create = () => runner
create.inject = []
export const strykerPlugins = [{ kind: 'TestRunner', name: 'one-process', factory: create }]
