import { z } from 'zod'
import type { Chart } from '../chart/chart.ts'
import { Tissue } from '../chart/ladder.ts'
import { nameOf } from '../chart/roster.ts'
import type { Library } from '../desk/library.ts'
import { escaped, type Modal, modal, numberInput, option, section, textInput } from './blocks.ts'
import type { Form } from './form.ts'
import { dayPicker, lineInput, optionsOf, radioFrom, selectFrom } from './pickers.ts'
import { planModal } from './plan.ts'
import { reads } from './reading.ts'

const OfCase = z.object({ athlete: z.string(), onTheWay: z.boolean() })

/** What heals, since when, and what the surgeon allows. `on the way`: part of an enrolment, the plan follows. */
export function caseModal(
  chart: Chart,
  library: Library,
  where: 'on the way' | 'alone',
  name: string,
): Modal {
  const before = chart.episode
  const known = [...library.ladders, ...library.criteriaSets].flatMap((one) => one.diagnoses)
  const diagnoses = [...new Set(known)].filter((one) => one !== 'any').toSorted()
  const onTheWay = where === 'on the way'
  return modal(
    {
      door: 'case',
      title: onTheWay ? 'Enrol: 2 of 3' : 'The episode',
      submit: onTheWay ? 'Save and go on' : 'Save',
      about: { athlete: chart.athlete, onTheWay },
    },
    [
      section(`The injury of *${escaped(name)}*.${onTheWay ? ' The first form is saved.' : ''}`),
      selectFrom(
        {
          name: 'known',
          label: 'Diagnosis, of those that a ladder or criteria exist for',
          optional: true,
        },
        optionsOf(diagnoses),
        before?.diagnosis,
      ),
      lineInput({
        name: 'diagnosis',
        label: 'Diagnosis, in other words',
        optional: true,
        initial: before && !diagnoses.includes(before.diagnosis) ? before.diagnosis : undefined,
      }),
      radioFrom({ name: 'tissue', label: 'Tissue that heals' }, optionsOf(Tissue.options), before?.tissue),
      lineInput({ name: 'site', label: 'Site', initial: before?.site }),
      radioFrom({ name: 'side', label: 'Side' }, optionsOf(['left', 'right', 'both', 'none']), before?.side),
      dayPicker({ name: 'onsetDay', label: 'Day of onset' }, before?.onsetDay),
      dayPicker({ name: 'surgeryDay', label: 'Day of surgery', optional: true }, before?.surgeryDay),
      dayPicker(
        { name: 'noRunBefore', label: "No running before (the surgeon's word)", optional: true },
        before?.noRunBefore,
      ),
      radioFrom(
        { name: 'healingRisk', label: 'Risk of poor healing; left open counts as high', optional: true },
        [option('low', 'low'), option('high', 'high')],
        before?.healingRisk,
      ),
      ...surgeonFields(chart),
    ],
  )
}

function surgeonFields({ episode }: Chart) {
  const limits = episode?.surgeonLimits
  const initial = (value: number | undefined) => (value === undefined ? {} : { initial: value })
  return [
    numberInput({
      name: 'bodyWeightPct',
      label: "The surgeon's limit: body weight carried, in %",
      low: 1,
      high: 100,
      optional: true,
      ...initial(limits?.bodyWeightPct),
    }),
    dayPicker({ name: 'until', label: "The surgeon's limit holds until", optional: true }, limits?.until),
    textInput({ name: 'words', label: 'Words', optional: true, most: 1000 }),
  ]
}

export const caseRead = reads(OfCase, async ({ doorway }, form, { athlete, onTheWay }) => {
  const { desk } = doorway
  const diagnosis = form.text('diagnosis')?.trim() || form.choice('known')
  if (!diagnosis) return { refused: 'missing', words: 'Choose a diagnosis or write one.', field: 'known' }
  const read = { hands: [episodeFrom(form, athlete, diagnosis)] }
  if (!onTheWay) return read
  const name = nameOf(await desk.team(), athlete)
  return { ...read, next: async (chart) => chart && planModal(chart, desk.library, 'on the way', name) }
})

function episodeFrom(form: Form, athlete: string, diagnosis: string): object {
  const bodyWeightPct = form.number('bodyWeightPct')
  const until = form.day('until')
  const limited = bodyWeightPct !== undefined || until !== undefined
  return {
    kind: 'episode',
    athlete,
    diagnosis,
    tissue: form.choice('tissue'),
    site: form.text('site') ?? '',
    side: form.choice('side'),
    onsetDay: form.day('onsetDay'),
    surgeryDay: form.day('surgeryDay'),
    noRunBefore: form.day('noRunBefore'),
    healingRisk: form.choice('healingRisk'),
    words: form.text('words'),
    ...(limited ? { surgeonLimits: { bodyWeightPct, until } } : {}),
  }
}
