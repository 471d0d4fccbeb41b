import { z } from 'zod'
import type { Chart } from '../chart/chart.ts'
import { type Day, dayAt } from '../chart/day.ts'
import { nameOf, type Person, type Team } from '../chart/roster.ts'
import type { Library } from '../desk/library.ts'
import { type Door, may, notYours } from '../rules/permissions.ts'
import type { Modal } from './blocks.ts'
import { caseModal } from './case.ts'
import { caseloadScreen } from './caseload.ts'
import { chartScreen } from './chart.ts'
import { clearanceModal } from './clearance.ts'
import { criteriaModal } from './criteria.ts'
import { callerNow, type Doorway } from './door.ts'
import { exerciseModal } from './exercise.ts'
import { aboutFrom } from './form.ts'
import { holdModal, liftModal } from './hold.ts'
import { measureModal } from './measure.ts'
import { planModal } from './plan.ts'
import { type Pressed, refuse, showForm, showScreen } from './pressed.ts'
import { showPictures } from './show-pictures.ts'
import { strikeModal } from './strike.ts'

const Value = z.object({ athlete: z.string(), set: z.string().optional() })

type Seen = {
  readonly chart: Chart
  readonly person: Person
  readonly team: Team
  readonly library: Library
  readonly today: Day
  readonly set: string | undefined
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
  'open-exercise': opensFor('exercise-done', ({ chart, library, today }) =>
    exerciseModal(chart, library, today),
  ),
  'open-case': opensFor('episode', ({ chart, library, team }) =>
    caseModal(chart, library, 'alone', nameOf(team, chart.athlete)),
  ),
  'open-plan': opensFor('plan-signed', ({ chart, library, team }) =>
    chart.episode
      ? planModal(chart, library, 'alone', nameOf(team, chart.athlete))
      : 'Write the episode first.',
  ),
  'open-criteria': opensFor('criteria-signed', ({ chart, library, today, set }) => {
    const found = library.criteria(set ?? '')
    return found ? criteriaModal(chart, found, library, today) : 'There is no such set any more.'
  }),
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
    const today = dayAt(desk.clock.now(), chart.enrolment?.timeZone ?? team.clinic.timeZone)
    const shown = form({ chart, person, team, library: desk.library, today, set: about.set })
    if (typeof shown === 'string') return refuse(pressed, { refused: 'not-now', words: shown })
    await pressed.ack()
    await showForm(pressed, shown)
  }
}
