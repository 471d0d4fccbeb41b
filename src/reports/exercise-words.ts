import type { z } from 'zod'
import type { ExerciseLine } from '../chart/exercise.ts'

/** "side plank on ball, in treadmill at 60 % of body weight: 3 sets of 10, hold 20 s, pain 1". */
export function exerciseWords(line: z.infer<typeof ExerciseLine>): string {
  const at = line.bodyWeightPct === undefined ? '' : ` at ${line.bodyWeightPct} % of body weight`
  const repeats = line.repeats === undefined ? '' : ` of ${line.repeats}`
  const hold = line.holdSeconds === undefined ? '' : `, hold ${line.holdSeconds} s`
  const pain = line.pain === undefined ? '' : `, pain ${line.pain}`
  const note = line.note ? `. ${line.note}` : ''
  const where = line.where.replaceAll('-', ' ')
  return `${line.exercise.replaceAll('-', ' ')}, ${where}${at}: ${line.sets} sets${repeats}${hold}${pain}${note}`
}
