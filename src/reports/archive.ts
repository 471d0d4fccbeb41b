import type { Chart } from '../chart/chart.ts'
import type { Instant } from '../chart/day.ts'
import { nameOf, type Team } from '../chart/roster.ts'
import { amendRequests, answerBy } from '../rules/amend-request.ts'
import { calendar } from './calendar.ts'
import { csvTables } from './csv-tables.ts'
import { fhirBundle } from './fhir/bundle.ts'
import { progressReport, type ReportOptions } from './progress-report.ts'
import { zipOf } from './zip.ts'

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
  const tables = csvTables(chart, team).map(({ name, text }) => ({ name: `tables/${name}`, content: text }))
  const lines = chart.entries.map((entry) => JSON.stringify(entry))
  return zipOf(
    [
      { name: 'README.txt', content: readme(chart, team, now) },
      { name: 'record.jsonl', content: `${lines.join('\n')}\n` },
      { name: 'record.fhir.json', content: JSON.stringify(fhirBundle(chart, team, now, options.shelf)) },
      { name: 'progress-report.pdf', content: await progressReport(chart, team, now, options) },
      ...tables,
      { name: 'running-days.ics', content: calendar(chart, team, now) },
    ],
    now,
  )
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
