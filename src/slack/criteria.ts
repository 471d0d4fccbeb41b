import { z } from 'zod'
import type { Chart } from '../chart/chart.ts'
import type { CriteriaSet } from '../chart/criteria-set.ts'
import { type Day, dayAt } from '../chart/day.ts'
import { standingOf } from '../rules/criteria.ts'
import { raises } from '../rules/raises.ts'
import type { Shelf } from '../rules/shelf.ts'
import { escaped, type Modal, modal, section, textInput } from './blocks.ts'
import { linesInWords } from './criteria-lines.ts'
import { reads } from './reading.ts'

const OfSet = z.object({ athlete: z.string(), set: z.string() })

/** The lines of one set as they stand, and the signature under them. */
export function criteriaModal(chart: Chart, set: CriteriaSet, shelf: Shelf, today: Day): Modal {
  const about = { athlete: chart.athlete, set: `${set.id}@${set.version}` }
  const lines = standingOf(set, chart, shelf, today)
  return modal({ door: 'criteria', title: 'Sign criteria', submit: 'Sign', about }, [
    section(`*${escaped(set.title)}*\n${linesInWords(lines)}`),
    textInput({
      name: 'words',
      label: 'Words',
      hint: 'Needed when you sign although a line that decides is open.',
      optional: true,
      most: 1000,
    }),
  ])
}

export const criteriaRead = reads(OfSet, async ({ doorway }, form, { athlete, set }) => {
  const { desk } = doorway
  const chart = await desk.charts.read(athlete)
  const words = form.text('words')
  const signature = { kind: 'criteria-signed' as const, athlete, set, ...(words ? { words } : {}) }
  const today = dayAt(desk.clock.now(), chart.enrolment?.timeZone ?? desk.clinic.timeZone)
  const rises = raises(chart, signature, desk.library, today)
  if (rises.length > 0 && !words?.trim())
    return { refused: 'reason-needed', words: `${rises[0]} Please write the reason.`, field: 'words' }
  return { hands: [signature], raises: rises }
})
