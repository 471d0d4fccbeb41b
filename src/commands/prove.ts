import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { type Library, openLibrary } from '../desk/library.ts'
import { SharedFault } from '../desk/shared-file.ts'
import { allCases } from '../rules/red-flags-blocks.ts'
import { countOneByOne, levels, proveCase } from '../rules/red-flags-proof.ts'
import { Labelled, measure } from '../rules/words-measure.ts'

type Out = (line: string) => void

const sentencesFolder = 'tests/words'

/** `prove red-flags`: every combination of closed answers. `prove words [--file F]`: the list against labelled sentences. */
export async function run(argv: readonly string[], out: Out): Promise<number> {
  const { values, positionals } = parseArgs({
    args: [...argv],
    allowPositionals: true,
    options: { file: { type: 'string' }, shared: { type: 'string', default: 'shared' } },
  })
  try {
    const library = openLibrary(values.shared)
    if (positionals[0] === 'red-flags') return proveRedFlags(library, out)
    if (positionals[0] === 'words') return proveWords(library, values.file, out)
  } catch (error) {
    if (!(error instanceof SharedFault)) throw error
    out(error.message)
    return 1
  }
  out('Say: prove red-flags, or prove words [--file sentences.jsonl].')
  return 2
}

function proveRedFlags(library: Library, out: Out): number {
  const proofs = allCases().map((patient) => proveCase(patient, library))
  for (const { patient, blocks, counts, total, played } of proofs) {
    const where = [
      patient.knee ? 'knee' : '',
      patient.hip ? 'hip' : '',
      patient.afterSurgery ? 'soon after surgery' : '',
    ]
    out(
      `${[patient.tissue, ...where.filter((word) => word !== '')].join(', ')}: ${number(total)} combinations`,
    )
    out(
      `  ${Object.entries(blocks)
        .map(([name, size]) => `${name} ${size}`)
        .join(' x ')} x pain this morning 11`,
    )
    out(
      `  ${levels.map((level) => `${level}: ${number(counts[level])}`).join('; ')}; ${number(played)} played through`,
    )
  }
  const simplest = { tissue: 'muscle', knee: false, hip: false, afterSurgery: false } as const
  const counted = countOneByOne(simplest)
  const factored = proofs.find(({ patient }) => JSON.stringify(patient) === JSON.stringify(simplest))
  const agree = levels.every((level, i) => BigInt(counted.counts[i] ?? 0) * 11n === factored?.counts[level])
  out(
    `Counted one by one, without factoring, for the shortest form: ${number(counted.total)} times 11; ${agree ? 'the same' : 'NOT THE SAME'}.`,
  )
  const breaches = proofs.flatMap((proof) => proof.breaches)
  for (const breach of breaches.slice(0, 20)) out(`breach: ${breach}`)
  const total = proofs.reduce((sum, proof) => sum + proof.total, 0n)
  const played = proofs.reduce((sum, proof) => sum + proof.played, 0)
  out(
    `${proofs.length} cases, ${number(total)} combinations, ${number(played)} played through the whole rule, ${breaches.length} breaches.`,
  )
  out(
    'No row looks at more than one block of answers unless a breach says so; that is what allows counting block by block.',
  )
  return breaches.length === 0 && agree ? 0 : 1
}

function proveWords(library: Library, file: string | undefined, out: Out): number {
  const files =
    file === undefined
      ? readdirSync(sentencesFolder)
          .filter((name) => name.endsWith('.jsonl'))
          .map((name) => join(sentencesFolder, name))
      : [file]
  let missed = 0
  for (const one of files) {
    const read = sentencesIn(one)
    if (typeof read === 'string') {
      out(read)
      return 2
    }
    const sentences = read
    const { tiers, wrong } = measure(sentences, library.words)
    out(`${one}: ${sentences.length} sentences`)
    for (const { tier, sentences: count, precision, recall } of tiers)
      out(
        `  ${tier.padEnd(9)}  ${String(count).padStart(4)} sentences   precision ${percent(precision)}   recall ${percent(recall)}`,
      )
    for (const { sentence, heard, pattern } of wrong)
      out(`  ${sentence.expect} heard as ${heard}: ${sentence.text}${pattern ? `   <${pattern}>` : ''}`)
    missed += wrong.filter(({ sentence }) => sentence.expect === 'emergency').length
  }
  out(missed === 0 ? 'No emergency was missed.' : `${missed} emergencies were not heard as emergencies.`)
  return missed === 0 ? 0 : 1
}

/** The labelled sentences of a file, one to a line; or which line is wrong and what is allowed. */
function sentencesIn(file: string): readonly Labelled[] | string {
  const sentences: Labelled[] = []
  for (const [i, line] of readFileSync(file, 'utf8').split('\n').entries()) {
    if (line.trim() === '') continue
    const labelled = Labelled.safeParse(jsonOf(line))
    if (!labelled.success)
      return `${file}:${i + 1}: wanted is { "text": "...", "expect": "emergency" | "urgent" | "next" | "none" }`
    sentences.push(labelled.data)
  }
  return sentences
}

function jsonOf(line: string): unknown {
  try {
    return JSON.parse(line)
  } catch {
    return undefined
  }
}

function percent(share: number | undefined): string {
  return share === undefined ? '    -' : `${(share * 100).toFixed(1).padStart(5)} %`
}

function number(value: number | bigint): string {
  return value.toLocaleString('en')
}
