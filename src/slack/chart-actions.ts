import { z } from 'zod'
import type { Chart } from '../chart/chart.ts'
import { type Day, dayAt, type Instant } from '../chart/day.ts'
import { nameOf, type Person, type Team } from '../chart/roster.ts'
import type { Library } from '../desk/library.ts'
import { type Door, may, notYours } from '../rules/permissions.ts'
import { requestModal } from './amend-request.ts'
import type { Modal } from './blocks.ts'
import { openBuilder } from './build-ladder.ts'
import { caseModal } from './case.ts'
import { caseloadScreen } from './caseload.ts'
import { chartScreen } from './chart.ts'
import { clearanceModal } from './clearance.ts'
import { criteriaModal } from './criteria.ts'
import { callerNow, type Doorway } from './door.ts'
import { exerciseModal } from './exercise.ts'
import { exportModal } from './export.ts'
import { aboutFrom } from './form.ts'
import { holdModal, liftModal } from './hold.ts'
import { measureModal } from './measure.ts'
import { planModal } from './plan.ts'
import { type Pressed, refuse, showForm, showScreen } from './pressed.ts'
import { reviewModal } from './review.ts'
import { showPictures } from './show-pictures.ts'
import { skippedModal } from './skipped.ts'
import { staffSessionModal } from './staff-session.ts'
import { strikeModal } from './strike.ts'

const Value = z.object({ athlete: z.string(), set: z.string().optional(), request: z.string().optional() })

type Seen = {
  readonly chart: Chart
  readonly person: Person
  readonly team: Team
  readonly library: Library
  readonly today: Day
  readonly now: Instant
  readonly set: string | undefined
  readonly request: string | undefined
}

/** What can be pressed on the caseload and the chart. */
export const chartActions = {
  'open-caseload': async (doorway: Doorway, person: Person, pressed: Pressed) => {
    if (!person.roles.includes('therapist')) return refuse(pressed, notYours('see-chart'))
    await pressed.ack()
    await showScreen(pressed, await caseloadScreen({ doorway, person }))
  },
  'open-chart': async (doorway: Doorway, person: Person, pressed: Pressed) => {
    const about = aboutFrom(Value, pressed.action.value)
    if ('refused' in about) return refuse(pressed, about)
    const chart = await doorway.desk.charts.read(about.athlete)
    if (!may(await callerNow(doorway, person), 'see-chart', chart))
      return refuse(pressed, notYours('see-chart'))
    await pressed.ack()
    await showScreen(pressed, await chartScreen({ doorway, person }, chart))
  },
  'show-pictures': async (doorway: Doorway, person: Person, pressed: Pressed) => {
    const about = aboutFrom(Value, pressed.action.value)
    if ('refused' in about) return refuse(pressed, about)
    const chart = await doorway.desk.charts.read(about.athlete)
    if (!may(await callerNow(doorway, person), 'see-chart', chart))
      return refuse(pressed, notYours('see-chart'))
    await pressed.ack()
    await showPictures(doorway, person, about.athlete, pressed)
  },
  'open-clearance': opensFor('clearance', ({ chart }) => clearanceModal(chart)),
  'open-hold': opensFor('hold', ({ chart }) => holdModal(chart)),
  'open-lift': opensFor('hold-lifted', ({ chart, person, team }) =>
    chart.holds.length > 0 ? liftModal(chart, person.id, team) : 'Nothing is on hold any more.',
  ),
  'open-measure': opensFor('measure', ({ chart, library, today }) =>
    measureModal(chart, library.measureKinds, today),
  ),
  'open-staff-session': opensFor('session-done', ({ chart, library, today }) =>
    chart.plan ? staffSessionModal(chart, library, today) : 'No plan is signed yet.',
  ),
  'open-skipped': opensFor('run-skipped', ({ chart, today }) => skippedModal(chart, today)),
  'open-exercise': opensFor('exercise-done', ({ chart, library, today }) =>
    exerciseModal(chart, library, today),
  ),
  'open-export': opensFor('exported', ({ chart, team }) => exportModal(chart, team)),
  'open-case': opensFor('episode', ({ chart, library, team }) =>
    caseModal(chart, library, 'alone', nameOf(team, chart.athlete)),
  ),
  'open-plan': opensFor('plan-signed', ({ chart, library, team }) =>
    chart.episode
      ? planModal(chart, library, 'alone', nameOf(team, chart.athlete))
      : 'Write the episode first.',
  ),
  'open-builder': openBuilder,
  'open-criteria': opensFor('criteria-signed', ({ chart, library, today, set }) => {
    const found = library.criteria(set ?? '')
    return found ? criteriaModal(chart, found, library, today) : 'There is no such set any more.'
  }),
  'open-review': opensFor('review', ({ chart, team, library, now }) =>
    reviewModal(chart, team, library, now),
  ),
  'open-amend-request': opensFor(
    'amendment-request-answered',
    ({ chart, team, today, request }) =>
      requestModal(chart, request ?? '', team, today) ?? 'This request has been answered.',
  ),
  'open-strike': opensFor(
    'amendment',
    ({ chart, team }) => strikeModal(chart, team) ?? 'There is nothing yet that could be struck out.',
  ),
} as const

/** A form about the athlete of the button, for whoever may hand it in; or the words why there is none. */
function opensFor(door: Door, form: (seen: Seen) => Modal | string) {
  return async (doorway: Doorway, person: Person, pressed: Pressed): Promise<void> => {
    const about = aboutFrom(Value, pressed.action.value)
    if ('refused' in about) return refuse(pressed, about)
    const { desk } = doorway
    const chart = await desk.charts.read(about.athlete)
    if (!may(await callerNow(doorway, person), door, chart)) return refuse(pressed, notYours(door))
    const team = await desk.team()
    const now = desk.clock.now()
    const today = dayAt(now, chart.enrolment?.timeZone ?? team.clinic.timeZone)
    const { set, request } = about
    const shown = form({ chart, person, team, library: desk.library, today, now, set, request })
    if (typeof shown === 'string') return refuse(pressed, { refused: 'not-now', words: shown })
    await pressed.ack()
    await showForm(pressed, shown)
  }
}
