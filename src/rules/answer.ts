import { type Chart, openEscalations, withEntries } from '../chart/chart.ts'
import { dayAt, type Instant } from '../chart/day.ts'
import { type Precaution, precautions } from '../chart/enrolment.ts'
import type { Entry } from '../chart/entries.ts'
import { nameOf, type Team } from '../chart/roster.ts'
import { askToAmend, disagree, extendRequest } from './amend-request.ts'
import { answerAndAmend, strike } from './amendment.ts'
import { changeStanding, numbered, tellAthlete } from './change-standing.ts'
import { onCheckIn } from './check-in.ts'
import { refusedClearance } from './clearance.ts'
import { criteriaSigned } from './criteria-signing.ts'
import { both, type Decision, isRefusal, nothing, type Refusal, signed } from './decision.ts'
import { acknowledge, close, handOver } from './escalation-answer.ts'
import { onExercise, onSkipped } from './exercise.ts'
import { writeExport } from './export.ts'
import { refusedMeasure } from './measures.ts'
import { type Caller, may, notYours } from './permissions.ts'
import { planFrom } from './plan.ts'
import { refusedReview } from './review.ts'
import { onSession } from './session.ts'
import type { Shelf } from './shelf.ts'
import type { Submission } from './submissions.ts'
import { onTypedMessage } from './typed-message.ts'

/** The clinic's answer to a submission about one athlete: a decision, or a refusal with words. */
export function answer(
  chart: Chart,
  submission: Submission,
  at: {
    readonly caller: Caller
    readonly team: Team
    readonly shelf: Shelf
    readonly now: Instant
  },
): Decision | Refusal {
  const { caller, team, now } = at
  const asked = { by: caller.id, team, now }
  if (!may(caller, submission.kind, chart)) return notYours(submission.kind)
  switch (submission.kind) {
    case 'check-in':
      return onCheckIn(chart, submission, caller.id, { team, words: at.shelf.words, now })
    case 'session-done':
      return onSession(chart, submission, caller.id, { team, words: at.shelf.words, now })
    case 'typed-message':
      return onTypedMessage(chart, submission, caller.id, { team, words: at.shelf.words, now })
    case 'call-acknowledged':
      return acknowledge(chart, submission.escalation, asked)
    case 'handed-over':
      return handOver(chart, submission, asked)
    case 'escalation-closed':
      return close(chart, submission, asked)
    case 'hold-lifted':
      return liftHold(chart, submission, caller.id, team, now)
    case 'amendment':
      return strike(chart, submission, caller.id, team, now)
    case 'enrolment':
      return enrol(chart, submission, caller.id, team, now)
    case 'run-skipped':
      return onSkipped(chart, submission, caller.id, team, now)
    case 'exercise-done':
      return onExercise(chart, submission, caller.id, { team, words: at.shelf.words, now })
    case 'plan-signed': {
      const today = dayAt(now, chart.enrolment?.timeZone ?? team.clinic.timeZone)
      const plan = planFrom(chart, submission, { shelf: at.shelf, clinic: team.clinic, today })
      return isRefusal(plan) ? plan : changeStanding(chart, plan, caller.id, team, now)
    }
    case 'criteria-signed': {
      const criteria = criteriaSigned(chart, submission, at.shelf, now)
      return isRefusal(criteria) ? criteria : changeStanding(chart, criteria, caller.id, team, now)
    }
    case 'measure': {
      const today = dayAt(now, chart.enrolment?.timeZone ?? team.clinic.timeZone)
      const refused = refusedMeasure(submission, at.shelf, today)
      return refused ?? changeStanding(chart, submission, caller.id, team, now)
    }
    case 'clearance': {
      const today = dayAt(now, chart.enrolment?.timeZone ?? team.clinic.timeZone)
      const refused = refusedClearance(chart, submission, today)
      return refused ?? changeStanding(chart, submission, caller.id, team, now)
    }
    case 'review': {
      const refused = refusedReview(
        chart,
        submission,
        dayAt(now, chart.enrolment?.timeZone ?? team.clinic.timeZone),
      )
      return refused ?? changeStanding(chart, submission, caller.id, team, now)
    }
    case 'episode':
      return changeStanding(chart, submission, caller.id, team, now)
    case 'hold': {
      const because = [{ finding: 'therapist', words: submission.words, source: 'therapist' }]
      const id = numbered(chart, 'hold')
      return changeStanding(
        chart,
        { kind: 'hold', athlete: chart.athlete, about: id, because },
        caller.id,
        team,
        now,
      )
    }
    case 'amendment-request':
      return askToAmend(chart, submission, caller.id, team, now)
    case 'amendment-request-extended':
      return extendRequest(chart, submission, caller.id, team, now)
    case 'amendment-request-answered':
      return answerAndAmend(chart, submission, caller.id, team, now)
    case 'disagreement-stated':
      return disagree(chart, submission, caller.id, team, now)
    case 'exported':
      return writeExport(chart, submission, caller.id, now)
    default:
      return submission satisfies never
  }
}

function enrol(
  chart: Chart,
  submission: Extract<Submission, { kind: 'enrolment' }>,
  by: string,
  team: Team,
  now: Instant,
): Decision | Refusal {
  const isThere = (id: string, role: string) => {
    const person = team.roster.people.get(id)
    return person?.active && person.roles.some((r) => r === role)
  }
  if (!isThere(submission.athlete, 'athlete'))
    return {
      refused: 'unknown-person',
      words: 'The clinic lead must add this person as an athlete first.',
      field: 'athlete',
    }
  if (!isThere(submission.therapist, 'therapist'))
    return {
      refused: 'no-therapist',
      words: 'An athlete needs a treating therapist who works here.',
      field: 'therapist',
    }
  if (submission.cover && !isThere(submission.cover, 'therapist'))
    return { refused: 'no-cover', words: 'The cover must be a therapist who works here.', field: 'cover' }
  const fresh = submission.precautions.filter((one) => !chart.enrolment?.precautions.includes(one))
  const enrolled = changeStanding(chart, submission, by, team, now)
  return both(enrolled, askClinician(withEntries(chart, enrolled.entries), fresh, now))
}

/** A precaution that is present holds running until a therapist lifts it by name: the treating clinician is asked. */
function askClinician(chart: Chart, present: readonly Precaution[], now: Instant): Decision {
  if (present.length === 0) return nothing
  const id = numbered(chart, 'hold')
  const because = present.map((one) => ({
    finding: 'precaution',
    words: `${precautions[one]}: ask the treating clinician (remembered, not read in a source).`,
    source: 'common-practice',
  }))
  const hold: Entry = {
    ...signed(chart.athlete, id, now),
    kind: 'hold',
    about: chart.enrolment?.id ?? id,
    because,
  }
  return both({ entries: [hold], notices: [] }, tellAthlete(hold, now))
}

/** A therapist lifts a hold by name. It gives no run on the same day: the next morning's answer decides. */
function liftHold(
  chart: Chart,
  submission: Extract<Submission, { kind: 'hold-lifted' }>,
  by: string,
  team: Team,
  now: Instant,
): Decision | Refusal {
  const hold = chart.holds.find((h) => h.id === submission.hold)
  if (!hold) return { refused: 'no-hold', words: 'That hold is not in force.' }
  if (openEscalations(chart).some((e) => e.id === hold.about))
    return { refused: 'call-open', words: 'Close the call first, with what came of it.' }
  const { licensed } = team.clinic.support
  if (by !== licensed && hold.because.some((reason) => reason.finding === 'in-confidence'))
    return { refused: 'in-confidence', words: `${nameOf(team, licensed)} lifts this one. Please ask them.` }
  return changeStanding(chart, submission, by, team, now)
}
