import type { Chart } from '../chart/chart.ts'
import type { Instant } from '../chart/day.ts'
import type { Team } from '../chart/roster.ts'
import { type Decision, nothing } from './decision.ts'
import { quietUntil } from './quiet-hours.ts'

/** Something the treating therapist should see, without ringing: held back by quiet hours. */
export function noteTo(chart: Chart, about: string, now: Instant, team: Team): Decision {
  const person = chart.enrolment?.therapist
  if (!person) return nothing
  const notBefore = quietUntil(team, person, now)
  return {
    entries: [],
    notices: [
      {
        key: `${about}/note`,
        kind: 'note',
        to: { person },
        athlete: chart.athlete,
        about,
        queuedAt: now,
        ...(notBefore ? { notBefore } : {}),
      },
    ],
  }
}
