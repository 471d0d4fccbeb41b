import type { Chart } from '../chart/chart.ts'
import type { Instant } from '../chart/day.ts'
import type { ExportForm } from '../chart/exported.ts'
import type { Team } from '../chart/roster.ts'
import { archive } from './archive.ts'
import { calendar } from './calendar.ts'
import { csvTables } from './csv-tables.ts'
import { fhirBundle } from './fhir/bundle.ts'
import { progressReport, type ReportOptions } from './progress-report.ts'
import { zipOf } from './zip.ts'

/** One chart in one form as one file, named by its ending. Hand it the chart as its reader may see it (`asHandedTo`). */
export async function exportFile(
  form: ExportForm,
  chart: Chart,
  team: Team,
  { now, ...options }: Required<ReportOptions> & { readonly now: Instant },
): Promise<{ readonly ending: string; readonly content: string | Uint8Array }> {
  switch (form) {
    case 'pdf':
      return { ending: 'progress-report.pdf', content: await progressReport(chart, team, now, options) }
    case 'fhir':
      return { ending: 'fhir.json', content: JSON.stringify(fhirBundle(chart, team, now, options.shelf)) }
    case 'csv': {
      const tables = csvTables(chart, team).map(({ name, text }) => ({ name, content: text }))
      return { ending: 'tables.zip', content: await zipOf(tables, now) }
    }
    case 'ics':
      return { ending: 'ics', content: calendar(chart, team, now) }
    case 'all':
      return { ending: 'zip', content: await archive(chart, team, now, options) }
    default:
      return form satisfies never
  }
}
