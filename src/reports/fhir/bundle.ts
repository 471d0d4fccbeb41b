import type { Bundle } from '@medplum/fhirtypes'
import type { Chart } from '../../chart/chart.ts'
import { dayAt, type Instant } from '../../chart/day.ts'
import type { Team } from '../../chart/roster.ts'
import { amendmentsOf } from '../../chart/struck.ts'
import type { Shelf } from '../../rules/shelf.ts'
import { correctionPages } from './corrections.ts'
import { episodePages } from './episode.ts'
import { exercisePages } from './exercises.ts'
import { flagPages } from './flags.ts'
import { morningPages } from './morning.ts'
import { type Dossier, uuidOf } from './naming.ts'
import { peoplePages } from './people.ts'
import { planPages } from './plan.ts'
import { provenancePages } from './provenance.ts'
import { reviewPages } from './reviews.ts'
import { runningPages } from './running.ts'
import { standingPages } from './standing.ts'

/**
 * One athlete's record as an HL7 FHIR R4 Bundle (collection). Ids come from causes, references resolve inside the
 * bundle, what an amendment struck is there as entered in error, and nothing is there that the chart does not say.
 * Prompts, reminders and the steps of a call between its making and its closing stay in the archive.
 */
export function fhirBundle(chart: Chart, team: Team, now: Instant, shelf?: Pick<Shelf, 'measure'>): Bundle {
  const today = dayAt(now, chart.enrolment?.timeZone ?? team.clinic.timeZone)
  const dossier: Dossier = { chart, team, now, today, shelf, struck: amendmentsOf(chart) }
  const pages = [
    peoplePages,
    episodePages,
    planPages,
    morningPages,
    runningPages,
    exercisePages,
    standingPages,
    reviewPages,
    flagPages,
    correctionPages,
  ].flatMap((build) => build(dossier))
  return {
    resourceType: 'Bundle',
    identifier: {
      system: `${team.clinic.record.namespace}/record`,
      value: `${chart.athlete}/${chart.entries.length}`,
    },
    type: 'collection',
    timestamp: now,
    entry: [...pages, ...provenancePages(dossier, pages)].map(({ key, resource }) => {
      const id = uuidOf(dossier, key)
      return { fullUrl: `urn:uuid:${id}`, resource: { ...resource, id } }
    }),
  }
}
