import { ZipFile } from 'yazl'
import type { Chart } from '../chart/chart.ts'
import type { Instant } from '../chart/day.ts'
import { nameOf, type Team } from '../chart/roster.ts'
import { amendRequests, answerBy } from '../rules/amend-request.ts'
import { calendar } from './calendar.ts'
import { csvTables } from './csv-tables.ts'
import { fhirBundle } from './fhir/bundle.ts'
import { progressReport, type ReportOptions } from './progress-report.ts'

/**
 * Everything of one athlete in one ZIP, for a request of access: the record entry by entry, the report, the health
 * record, the tables with their dictionary, the calendar, and a page that says what each is. Hand it the chart as its
 * reader may see it (`asHandedTo`).
 */
export async function archive(
  chart: Chart,
  team: Team,
  now: Instant,
  options: ReportOptions = {},
): Promise<Uint8Array> {
  const zip = new ZipFile()
  const chunks: Buffer[] = []
  zip.outputStream.on('data', (chunk: Buffer) => chunks.push(chunk))
  const done = new Promise<void>((resolve, reject) => {
    zip.outputStream.on('end', resolve)
    zip.on('error', reject)
  })
  const add = (name: string, content: string | Uint8Array) =>
    zip.addBuffer(Buffer.from(content), name, { mtime: new Date(now), forceDosTimestamp: true })
  add('README.txt', readme(chart, team, now))
  add('record.jsonl', `${chart.entries.map((entry) => JSON.stringify(entry)).join('\n')}\n`)
  add('record.fhir.json', JSON.stringify(fhirBundle(chart, team, now, options.shelf)))
  add('progress-report.pdf', await progressReport(chart, team, now, options))
  for (const { name, text } of csvTables(chart, team)) add(`tables/${name}`, text)
  add('running-days.ics', calendar(chart, team, now))
  zip.end()
  await done
  return Buffer.concat(chunks)
}

function readme(chart: Chart, team: Team, now: Instant): string {
  const { clinic } = team
  const open = amendRequests(chart).filter(({ answered }) => !answered)
  const lines = [
    `The record of ${nameOf(team, chart.athlete)} (${chart.athlete}) at ${clinic.name}, made ${now}.`,
    '',
    'record.jsonl          every entry of the record, oldest first, one JSON object a line; nothing is left out of it',
    '                      but what was told in confidence (unless you are the one who told it) and the clinic’s audit of its own calls',
    'record.fhir.json      the record in an open health standard (HL7 FHIR R4), for another clinic’s system',
    'progress-report.pdf   the report as a physician reads it',
    'tables/*.csv          the record as tables; dictionary.csv says what each column means',
    'running-days.ics      runs done, possible days to come and reviews, for a calendar',
    '',
    'Entries that were struck out by an amendment are there, marked, with the reason.',
    `You may ask for a correction: in the chat, or at the clinic. ${clinic.record.law}`,
    `An answer is due within ${clinic.record.answerWithinDays} days; it may be put off once by ${clinic.record.extensionDays} days, in writing.`,
    ...open.map(
      (request) => `Open request ${request.asked.id}: answer by ${answerBy(request, chart, team)}.`,
    ),
    `The record is kept at least ${clinic.record.keepYears} years after its last page.`,
  ]
  return `${lines.join('\r\n')}\r\n`
}
