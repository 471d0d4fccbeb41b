import type { Observation, QuestionnaireResponse, QuestionnaireResponseItem } from '@medplum/fhirtypes'
import type { CheckIn } from '../../chart/check-in.ts'
import type { EntryOf } from '../../chart/entries.ts'
import { signGroups, signs } from '../../chart/signs.ts'
import type { LocalCode } from './local-codes.ts'
import {
  concept,
  type Dossier,
  loinc,
  type Page,
  patientKey,
  performers,
  quantity,
  refTo,
  signerRef,
  terminology,
} from './naming.ts'
import { observationStatus } from './status.ts'

type Value = Partial<Pick<Observation, 'valueInteger' | 'valueQuantity' | 'valueString' | 'dataAbsentReason'>>

/** Each morning as it was answered, and one observation for each value; a morning without an answer says so, value by value. */
export function morningPages(dossier: Dossier): readonly Page[] {
  return dossier.chart.entries.flatMap((entry): readonly Page[] => {
    if (entry.kind === 'check-in') return answered(dossier, entry)
    return entry.kind === 'check-in-missed' ? missed(dossier, entry) : []
  })
}

const scales = ['sleep', 'fatigue', 'stress', 'soreness'] as const

function answered(dossier: Dossier, checkIn: CheckIn): readonly Page[] {
  // A scale may be left blank: it is expected and not known, and nobody says whether it was declined.
  const perScale = scales.map((name) => {
    const value = checkIn[name]
    return observation(
      dossier,
      checkIn,
      name,
      value === undefined ? absent('unknown') : { valueInteger: value },
    )
  })
  const { temperature } = checkIn
  return [
    {
      key: `QuestionnaireResponse/${checkIn.id}`,
      resource: response(dossier, checkIn),
      from: checkIn,
    },
    // The integer as it was given: in one published answer list the answer for 2 reads "2 or more" (T10).
    observation(dossier, checkIn, 'worst-pain', { valueInteger: checkIn.worstPain }),
    observation(dossier, checkIn, 'morning-pain', { valueInteger: checkIn.morningPain }),
    observation(dossier, checkIn, 'swelling', { valueString: checkIn.swelling }),
    ...perScale,
    ...(temperature === undefined
      ? []
      : [
          observation(
            dossier,
            checkIn,
            'temperature',
            temperature === 'not taken'
              ? absent('not-performed')
              : { valueQuantity: quantity(temperature, 'celsius') },
          ),
        ]),
  ]
}

/** Silence is not refusal, and a question that never went out was not asked. */
function missed(dossier: Dossier, entry: EntryOf<'check-in-missed'>): readonly Page[] {
  const why = absent(entry.asked ? 'unknown' : 'not-asked')
  return (['worst-pain', 'morning-pain', 'swelling', ...scales] as const).map((code) =>
    observation(dossier, entry, code, why),
  )
}

function observation(
  dossier: Dossier,
  entry: CheckIn | EntryOf<'check-in-missed'>,
  code: LocalCode,
  value: Value,
): Page {
  const published = code.endsWith('pain')
    ? [loinc.pain]
    : code === 'temperature'
      ? [loinc.bodyTemperature]
      : []
  const resource: Observation = {
    resourceType: 'Observation',
    status: observationStatus(dossier, entry),
    category: [
      { coding: [terminology('observation-category', code === 'temperature' ? 'vital-signs' : 'survey')] },
    ],
    code: concept(dossier, code, ...published),
    subject: refTo(dossier, patientKey(dossier)),
    effectiveDateTime: entry.day,
    issued: entry.recordedAt,
    ...performers(dossier, entry.author),
    ...value,
    ...(entry.kind === 'check-in'
      ? { derivedFrom: [refTo(dossier, `QuestionnaireResponse/${entry.id}`)] }
      : {}),
  }
  return { key: `Observation/${entry.id}/${code}`, resource, from: entry }
}

function absent(code: 'unknown' | 'not-asked' | 'not-performed'): Value {
  return { dataAbsentReason: { coding: [terminology('data-absent-reason', code)] } }
}

function response(dossier: Dossier, checkIn: CheckIn): QuestionnaireResponse {
  const status = observationStatus(dossier, checkIn)
  return {
    resourceType: 'QuestionnaireResponse',
    identifier: { system: `${dossier.team.clinic.record.namespace}/entry`, value: checkIn.id },
    status: status === 'final' ? 'completed' : status === 'amended' ? 'amended' : 'entered-in-error',
    subject: refTo(dossier, patientKey(dossier)),
    authored: checkIn.recordedAt,
    author: signerRef(dossier, checkIn.author),
    item: items(checkIn),
  }
}

function items(checkIn: CheckIn): QuestionnaireResponseItem[] {
  const numbers = (['worstPain', 'morningPain', 'sleep', 'fatigue', 'stress', 'soreness'] as const).flatMap(
    (name) => {
      const value = checkIn[name]
      return value === undefined ? [] : [{ linkId: name, answer: [{ valueInteger: value }] }]
    },
  )
  const groups = signGroups.flatMap((group) => {
    const ticked = checkIn.signs[group]
    if (!ticked) return []
    const words: Record<string, string> = signs[group]
    const answer =
      ticked.length === 0
        ? [{ valueString: 'none of these' }]
        : ticked.map((sign) => ({ valueString: words[sign] ?? sign }))
    return [{ linkId: `signs-${group}`, answer }]
  })
  const { temperature, note } = checkIn
  return [
    ...numbers,
    { linkId: 'swelling', answer: [{ valueString: checkIn.swelling }] },
    ...(temperature === undefined
      ? []
      : [
          {
            linkId: 'temperature',
            answer: [
              temperature === 'not taken'
                ? { valueString: temperature }
                : { valueQuantity: quantity(temperature, 'celsius') },
            ],
          },
        ]),
    ...groups,
    ...(note ? [{ linkId: 'note', answer: [{ valueString: note }] }] : []),
  ]
}
