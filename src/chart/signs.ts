import { z } from 'zod'

/**
 * What an athlete can tick, by group. Each group that is asked needs an answer: the signs that apply, or an
 * explicit "none of these". Which groups are asked follows the case; what a sign means is decided in rules/.
 */
export const signs = {
  always: {
    'chest-pain': 'Chest pain or pressure, or fainted or nearly did',
    'short-of-breath': 'Sudden short breath, or coughing blood',
    'racing-heart': 'Heart racing or skipping beats for no reason',
    'head-knock': 'A knock to the head since the last check-in',
    'head-danger': 'After a knock: out cold, sick, confused, drowsy, worse headache',
    'cannot-walk': 'Cannot take four steps on the leg',
    'limb-danger': 'Limb very tight or numb, pain far beyond the injury',
    'foot-danger': 'Foot cold or pale, or it hangs down and will not lift',
    'saddle-numb': 'Numb between the legs, or cannot pass or hold urine or stool',
  },
  surgery: {
    chills: 'Chills, or feel feverish',
    wound: 'Wound open, leaking or smelling',
    'hot-joint': 'Joint hot and red, with worse pain',
    calf: 'New pain, swelling or warmth in one calf',
    'very-unwell': 'Feel very unwell or confused',
  },
  bone: {
    'bone-pain-at-night': 'Pain in the bone that wakes me or aches at rest',
    'sore-spot': 'One sore spot on the bone, the size of a fingertip',
    'hurts-to-stand': 'Hurts to stand or walk on it',
    'rising-pain': 'The pain is rising from run to run',
  },
  knee: {
    'gave-way': 'The knee gave way',
    locked: 'The knee locked, or will not straighten',
    'big-swelling': 'A big new swelling within hours',
  },
} as const

export type SignGroup = keyof typeof signs
export type SignsOf<G extends SignGroup> = keyof (typeof signs)[G]
export type Sign = { [G in SignGroup]: SignsOf<G> }[SignGroup]

export const signGroups = Object.keys(signs) as SignGroup[]

export const SignAnswers = z.strictObject({
  always: z.array(signOf('always')),
  surgery: z.array(signOf('surgery')).optional(),
  bone: z.array(signOf('bone')).optional(),
  knee: z.array(signOf('knee')).optional(),
})
export type SignAnswers = z.infer<typeof SignAnswers>

/** All signs that were ticked, whatever the group. */
export function ticked(answers: SignAnswers): ReadonlySet<Sign> {
  return new Set(signGroups.flatMap((group): readonly Sign[] => answers[group] ?? []))
}

function signOf<G extends SignGroup>(group: G) {
  const names = Object.keys(signs[group]) as (SignsOf<G> & string)[]
  return z.enum(names as [(typeof names)[number], ...(typeof names)[number][]])
}
