import { unzipSync } from 'fflate'
import { beforeAll, describe, expect, test } from 'vitest'
import { Entry } from '../../src/chart/entries.ts'
import { archive } from '../../src/reports/archive.ts'
import { reading, twoWeeks } from './record.ts'

let files: ReadonlyMap<string, string>
let length: number
beforeAll(async () => {
  const work = await twoWeeks()
  await work.submit('mika', {
    kind: 'amendment-request',
    athlete: 'mika',
    words: 'A run of 22 March is missing.',
  })
  const { chart, team, now } = await reading(work)
  length = chart.entries.length
  const unzipped = Object.entries(unzipSync(await archive(chart, team, now)))
  files = new Map(unzipped.map(([name, bytes]) => [name, Buffer.from(bytes).toString()]))
})

describe('everything of one athlete', () => {
  test('is one archive that another program opens, with every form in it', () =>
    expect([...files.keys()]).toEqual([
      'README.txt',
      'record.jsonl',
      'record.fhir.json',
      'progress-report.pdf',
      'tables/check-ins.csv',
      'tables/prescriptions.csv',
      'tables/sessions.csv',
      'tables/bouts.csv',
      'tables/exercises.csv',
      'tables/measures.csv',
      'tables/criteria.csv',
      'tables/escalations.csv',
      'tables/corrections.csv',
      'tables/dictionary.csv',
      'running-days.ics',
    ]))

  test('holds every entry, readable as an entry', () => {
    const lines = (files.get('record.jsonl') ?? '').trimEnd().split('\n')
    expect(lines).toHaveLength(length)
    for (const line of lines) expect(Entry.safeParse(JSON.parse(line)).success).toBe(true)
    expect(files.get('progress-report.pdf')?.startsWith('%PDF-1.7')).toBe(true)
    expect(JSON.parse(files.get('record.fhir.json') ?? '').resourceType).toBe('Bundle')
  })

  test('says how to ask for a correction, and by when an open request is answered', () => {
    expect(files.get('README.txt')).toContain(
      'An answer is due within 60 days; it may be put off once by 30 days',
    )
    expect(files.get('README.txt')).toContain('Open request amendment-request/mika/2: answer by 2026-05-28.')
  })
})
