import { z } from 'zod'

/**
 * What an athlete can tick, by group. Each group that is asked needs an answer: the signs that apply, or an
 * explicit "none of these". Which groups are asked follows the case; what a sign means is decided in rules/.
 */
export const signs = {
  always: {
    'chest-pain': 'Chest pain or pressure, or fainted or nearly did',
    'short-of-breath': 'Sudden short breath, or coughing blood',
    'head-knock': 'A knock to the head since the last check-in',
    'cannot-walk': 'Cannot take four steps on the leg',
  },
  bone: {
    'bone-pain-at-night': 'Pain in the bone that wakes me or aches at rest',
    'sore-spot': 'One sore spot on the bone, the size of a fingertip',
  },
} as const

export type SignGroup = keyof typeof signs
export type Sign = { [G in SignGroup]: keyof (typeof signs)[G] }[SignGroup]

export const signGroups = Object.keys(signs) as SignGroup[]

export const SignAnswers = z.strictObject({
  always: z.array(signOf('always')),
  bone: z.array(signOf('bone')).optional(),
})
export type SignAnswers = z.infer<typeof SignAnswers>

/** All signs that were ticked, whatever the group. */
export function ticked(answers: SignAnswers): ReadonlySet<Sign> {
  return new Set([...answers.always, ...(answers.bone ?? [])])
}

function signOf<G extends SignGroup>(group: G) {
  const names = Object.keys(signs[group]) as (keyof (typeof signs)[G] & string)[]
  return z.enum(names as [(typeof names)[number], ...(typeof names)[number][]])
}
