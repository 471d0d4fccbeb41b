/**
 * The clinic's own codes: what no published code was found for, or none that is certain. They go out as a CodeSystem in
 * every bundle, so that a receiver can read what each means.
 */
export const localCodes = {
  'worst-pain': code('Worst pain since the last check-in', 'At the injured place, integer 0 to 10.'),
  'morning-pain': code('Pain getting up', 'At the injured place, integer 0 to 10.'),
  'pain-before-run': code('Pain before the run', 'At the injured place, integer 0 to 10.'),
  'pain-during-run': code('Pain during the run', 'At the injured place, integer 0 to 10, worst.'),
  'pain-after-run': code('Pain after the run', 'At the injured place, integer 0 to 10.'),
  swelling: code(
    'More swollen than yesterday',
    "The athlete's own view: no, yes, not sure. Not a grade of effusion.",
  ),
  sleep: code('Sleep', 'Own scale, 1 good to 7 bad; compared with the own past only.'),
  fatigue: code('Fatigue', 'Own scale, 1 good to 7 bad; compared with the own past only.'),
  stress: code('Stress', 'Own scale, 1 good to 7 bad; compared with the own past only.'),
  soreness: code('Soreness', 'Own scale, 1 good to 7 bad; compared with the own past only.'),
  temperature: code('Body temperature', 'As the athlete took it.'),
  'body-mass': code('Body mass', 'As known at enrolment.'),
  'body-height': code('Body height', 'As known at enrolment.'),
  'run-minutes': code('Minutes of running', 'Minutes of running in one session, walking not counted.'),
  rpe: code('Effort of the session', 'Rating of perceived exertion, category-ratio scale 0 to 10.'),
  bout: code('Stretch of a session', 'One gait at one setting, repeated.'),
  'body-weight-carried': code(
    'Body weight carried',
    'Percent of body weight carried, as set on the treadmill; what the machine supports is 100 minus this.',
  ),
  'body-weight-carried-measured': code(
    'Body weight carried, as weighed',
    'Percent of body weight carried, as weighed in the machine.',
  ),
  speed: code('Speed', 'Speed of the belt or on the ground.'),
  incline: code('Incline', 'Percent.'),
  'bout-minutes': code('Minutes of one repeat', 'Minutes.'),
  repeats: code('Repeats', 'How many times.'),
  measure: code('Measure', 'Something measured by staff; the text names it.'),
  'injured-side': code('Injured side', 'The value of the injured side.'),
  'other-side': code('Other side', 'The value of the other side.'),
  clearance: code('Clearance', 'What a licensed therapist cleared the athlete for, until when.'),
  'ceiling-body-weight': code(
    'Ceiling of body weight carried',
    'The most that was signed for, percent carried.',
  ),
  'ceiling-speed': code('Ceiling of speed', 'The most that was signed for.'),
  'ceiling-run-minutes': code('Ceiling of running minutes', 'The most that was signed for in one session.'),
  'unloaded-run': code(
    'Run with part of the body weight carried',
    'On an air-pressure treadmill or on the ground.',
  ),
  'exercise-without-running': code('Exercise without running', 'As agreed with the therapist.'),
  'run-done': code('Run that was done', 'A session of walking and running as it was logged.'),
  'timed-stand': code('Timed stand on one leg', 'Seconds; the method says side, eyes, surface and cap.'),
  'criteria-signed': code(
    'Criteria that were signed',
    'A set of criteria as it stood when a therapist signed it.',
  ),
  criterion: code('Criterion', 'One line of a set: met, not met, missing or expired.'),
  review: code('Weekly review', 'What a therapist decided after looking through a week.'),
  surgery: code('Surgery', 'Surgery for the injury of this episode.'),
  'morning-check-in': code('Morning check-in', 'What the athlete answered in the morning.'),
  hold: code('Running is on hold', 'No running until a therapist lifts it by name.'),
  'red-flag': code('Red flag', 'A sign that a human must act on; not a diagnosis.'),
  call: code('Call about a red flag', 'A message that asks a named person to act.'),
  closing: code('Closing of a call', 'What came of a red flag.'),
  'amendment-request': code('Request to amend', 'The athlete asks for a correction of the record.'),
  'amendment-answer': code('Answer to a request to amend', 'Accepted, or denied with a written reason.'),
  disagreement: code('Statement of disagreement', 'The athlete disagrees with a refusal to amend.'),
} as const

export type LocalCode = keyof typeof localCodes

function code(display: string, definition: string) {
  return { display, definition }
}
