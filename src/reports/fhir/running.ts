import type { Observation, ObservationComponent, Procedure } from '@medplum/fhirtypes'
import type { SessionDone } from '../../chart/session.ts'
import { runOf } from '../dose-words.ts'
import { exerciseWords } from '../exercise-words.ts'
import type { LocalCode } from './local-codes.ts'
import {
  concept,
  type Dossier,
  loinc,
  type Page,
  patientKey,
  performers,
  personRef,
  quantity,
  refTo,
  terminology,
  type Unit,
} from './naming.ts'
import { prescriptionKey } from './plan.ts'
import { observationStatus } from './status.ts'

/** Each run that was done: the session as a procedure, and what was seen in it, one observation for each value. */
export function runningPages(dossier: Dossier): readonly Page[] {
  return dossier.chart.entries.flatMap((entry): readonly Page[] =>
    entry.kind === 'session-done' ? sessionPages(dossier, entry) : [],
  )
}

function sessionPages(dossier: Dossier, session: SessionDone): readonly Page[] {
  const seen = (name: string, code: LocalCode, value: Partial<Observation>): Page => ({
    key: `Observation/${session.id}/${name}`,
    resource: observation(dossier, session, code, value),
    from: session,
  })
  return [
    { key: sessionKey(session), resource: procedure(dossier, session), from: session },
    seen('pain-before', 'pain-before-run', { valueInteger: session.painBefore }),
    seen('pain-during', 'pain-during-run', { valueInteger: session.painDuring }),
    seen('pain-after', 'pain-after-run', { valueInteger: session.painAfter }),
    seen('rpe', 'rpe', { valueQuantity: quantity(session.rpe, 'one') }),
    seen('run-minutes', 'run-minutes', { valueQuantity: quantity(runOf(session).minutes, 'minutes') }),
    ...session.bouts.map((bout, i) =>
      seen(`bout-${i + 1}`, 'bout', { component: components(dossier, bout) }),
    ),
  ]
}

function sessionKey(session: SessionDone): `Procedure/${string}` {
  return `Procedure/${session.id}`
}

function procedure(dossier: Dossier, session: SessionDone): Procedure {
  const { chart } = dossier
  const followed = chart.entries.find((entry) => entry.id === session.about)
  return {
    resourceType: 'Procedure',
    status: dossier.struck.has(session.id) ? 'entered-in-error' : 'completed',
    ...(followed?.kind === 'prescription' ? { basedOn: [refTo(dossier, prescriptionKey(followed.id))] } : {}),
    code: concept(dossier, 'run-done'),
    subject: refTo(dossier, patientKey(dossier)),
    performedDateTime: session.day,
    recorder: personRef(dossier, session.author),
    ...notes(session),
  }
}

/** What was noted beside the numbers: live changes, how the gait looked, soreness, words. */
function notes({ changes = [], gait, soreness, exercises = [], note }: SessionDone): Pick<Procedure, 'note'> {
  const said = [
    ...changes.map(
      ({ atMinute, why, stopped }) => `${stopped ? 'Stopped' : 'Changed'} at ${atMinute} min: ${why}.`,
    ),
    gait
      ? `Gait: ${gait.looked}${gait.side ? `, ${gait.side}` : ''}.${gait.note ? ` ${gait.note}` : ''}`
      : '',
    soreness ? `Soreness: ${soreness}.` : '',
    ...exercises.map(exerciseWords),
    note ?? '',
  ].filter((words) => words !== '')
  return said.length > 0 ? { note: said.map((text) => ({ text })) } : {}
}

function observation(
  dossier: Dossier,
  session: SessionDone,
  code: LocalCode,
  value: Partial<Observation>,
): Observation {
  const published = code.startsWith('pain')
    ? [loinc.pain]
    : code === 'run-minutes'
      ? [loinc.exerciseDuration]
      : []
  return {
    resourceType: 'Observation',
    status: observationStatus(dossier, session),
    category: [{ coding: [terminology('observation-category', code === 'bout' ? 'activity' : 'survey')] }],
    partOf: [refTo(dossier, sessionKey(session))],
    code: concept(dossier, code, ...published),
    subject: refTo(dossier, patientKey(dossier)),
    effectiveDateTime: session.day,
    issued: session.recordedAt,
    ...performers(dossier, session.author),
    ...value,
  }
}

function components(dossier: Dossier, bout: SessionDone['bouts'][number]): ObservationComponent[] {
  const one = (code: LocalCode, value: number, unit: Unit) => ({
    code: concept(dossier, code),
    valueQuantity: quantity(value, unit),
  })
  return [
    one('body-weight-carried', bout.bodyWeightPct, 'percent'),
    ...(bout.measuredBodyWeightPct === undefined
      ? []
      : [one('body-weight-carried-measured', bout.measuredBodyWeightPct, 'percent')]),
    one('speed', bout.speedMps * 3.6, 'kmh'),
    one('incline', bout.inclinePct, 'percent'),
    one('bout-minutes', bout.minutes, 'minutes'),
    one('repeats', bout.repeats, 'one'),
  ]
}
