import type { Chart } from '../chart/chart.ts'
import type { Role } from '../chart/roster.ts'
import type { Refusal } from './decision.ts'
import { isOnList } from './hand-over.ts'

/** Who asks: a person of the clinic, known by the account that the chat platform vouches for. */
export type Caller = {
  readonly id: string
  readonly roles: readonly Role[]
  /** Colleagues for whom this person stands in today: a hand-over carries their caseload with it. */
  readonly covers?: readonly string[]
}

/** Whose chart a role may act on: its own, those it treats or covers, those who train under it, all. */
export type Reach = 'own' | 'caseload' | 'squad' | 'all'

/** Everything that can be done or seen, by door. Denied unless granted here. */
export const grants = {
  'check-in': { athlete: 'own' },
  'typed-message': { athlete: 'own' },
  'session-done': { athlete: 'own', therapist: 'caseload' },
  'run-skipped': { athlete: 'own', therapist: 'caseload' },
  /** The one thing that a strength coach may write. */
  'exercise-done': { athlete: 'own', 'strength-coach': 'squad', therapist: 'caseload' },
  enrolment: { therapist: 'all' },
  episode: { therapist: 'caseload' },
  'plan-signed': { therapist: 'caseload' },
  measure: { therapist: 'caseload' },
  'criteria-signed': { therapist: 'caseload' },
  review: { therapist: 'caseload' },
  clearance: { therapist: 'caseload' },
  hold: { therapist: 'caseload' },
  'hold-lifted': { therapist: 'caseload' },
  amendment: { therapist: 'caseload' },
  'call-acknowledged': { therapist: 'caseload', 'clinic-lead': 'all' },
  'handed-over': { therapist: 'caseload', 'clinic-lead': 'all' },
  'escalation-closed': { therapist: 'caseload', 'clinic-lead': 'all' },
  person: { 'clinic-lead': 'all' },
  place: { 'clinic-lead': 'all' },
  'see-chart': { therapist: 'caseload' },
  'see-why': { athlete: 'own', therapist: 'caseload' },
  'see-people': { 'clinic-lead': 'all' },
  'see-audit': { 'clinic-lead': 'all' },
  'see-call-list': { therapist: 'caseload', 'clinic-lead': 'all' },
  exported: { athlete: 'own', therapist: 'caseload', 'clinic-lead': 'all' },
  'amendment-request': { athlete: 'own', therapist: 'caseload' },
  'amendment-request-extended': { therapist: 'caseload' },
  'amendment-request-answered': { therapist: 'caseload' },
  'disagreement-stated': { athlete: 'own' },
  erased: { 'clinic-lead': 'all' },
  cover: { therapist: 'own', 'clinic-lead': 'all' },
  'on-call': { 'clinic-lead': 'all' },
  closed: { 'clinic-lead': 'all' },
  withdrawn: { 'clinic-lead': 'all' },
  /** Tightened, never loosened. */
  settings: { 'clinic-lead': 'all' },
  'see-figures': { 'clinic-lead': 'all' },
  'see-prescription': { athlete: 'own', therapist: 'caseload' },
  'see-exercises': { athlete: 'own', 'strength-coach': 'squad', therapist: 'caseload' },
  'see-cleared': { athlete: 'own', coach: 'squad', 'strength-coach': 'squad', therapist: 'caseload' },
} as const satisfies Record<string, Partial<Record<Role, Reach>>>

export type Door = keyof typeof grants

/** Whether the caller may use a door on this chart. */
export function may(caller: Caller, door: Door, chart: Chart): boolean {
  const granted: Partial<Record<Role, Reach>> = grants[door]
  return caller.roles.some((role) => {
    const reach = granted[role]
    return reach !== undefined && reaches(reach, caller, chart)
  })
}

/** The refusal of a door, naming whom to ask. */
export function notYours(door: Door): Refusal {
  const roles = Object.keys(grants[door]).map((role) => words[role as Role])
  return {
    refused: 'not-yours',
    words: `This is for ${roles.join(' or ')}. Please ask them.`,
  }
}

const words: Record<Role, string> = {
  athlete: 'the athlete',
  coach: 'the coach',
  'strength-coach': 'the strength coach',
  therapist: 'the therapist',
  'clinic-lead': 'the clinic lead',
}

function reaches(reach: Reach, caller: Caller, chart: Chart): boolean {
  switch (reach) {
    case 'all':
      return true
    case 'own':
      return caller.id === chart.athlete
    case 'caseload':
      return onCaseload(caller, chart) || onCallList(caller.id, chart)
    case 'squad':
      return Boolean(chart.enrolment?.consentToCoach && chart.enrolment.coaches.includes(caller.id))
    default:
      return reach satisfies never
  }
}

function onCaseload({ id, covers = [] }: Caller, { enrolment }: Chart): boolean {
  if (!enrolment) return false
  const { therapist, cover } = enrolment
  return therapist === id || cover === id || covers.includes(therapist)
}

/**
 * Whoever an alarm calls may read and answer it, whatever the caseload says, until it is closed and its hold is
 * lifted.
 */
function onCallList(person: string, chart: Chart): boolean {
  const held = new Set(chart.holds.map((hold) => hold.about))
  return chart.escalations.some((e) => (!e.closed || held.has(e.id)) && isOnList(e, person))
}
