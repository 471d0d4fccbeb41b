import type { RedFlag } from './red-flag.ts'

/** Emergency services now; the team is called as well. */
export const emergencies = [
  {
    finding: 'short-of-breath',
    row: 'R1',
    tier: 'emergency',
    source: 'wells-two-level',
    label: 'read',
    words: 'Sudden short breath or coughing blood.',
    toAthlete: 'Stop all exercise and do not drive yourself.',
    fits: ['sports medicine', 'after surgery'],
    hears: ['breath/emergency'],
    holds: ({ signs }) => signs.has('short-of-breath'),
  },
  {
    finding: 'chest-or-faint',
    row: 'R9',
    tier: 'emergency',
    source: 'aha-14',
    label: 'read',
    words: 'Chest pain or pressure, or fainted or nearly did.',
    toAthlete: 'Stop all exercise.',
    fits: ['sports medicine'],
    hears: ['chest/emergency', 'collapse/emergency', 'heart-rhythm/emergency'],
    holds: ({ signs }) => signs.has('chest-pain'),
  },
  {
    finding: 'saddle-numb',
    row: 'R8',
    tier: 'emergency',
    source: 'cauda-equina',
    label: 'read',
    words: 'Numb between the legs, trouble passing or holding urine or stool, or both legs weak.',
    toAthlete: 'This cannot wait until tomorrow.',
    fits: ['sports medicine'],
    hears: ['saddle/emergency'],
    holds: ({ signs }) => signs.has('saddle-numb'),
  },
  {
    finding: 'limb-danger',
    row: 'R7',
    tier: 'emergency',
    source: 'acute-compartment',
    label: 'read',
    words:
      'Limb pain far beyond the injury, tight or numb, up to 48 hours after a load or a knock. A normal pulse does not reassure.',
    toAthlete: 'This cannot wait until tomorrow. Do not raise, wrap or ice the limb.',
    fits: ['sports medicine', 'after surgery'],
    hears: ['compartment/emergency'],
    holds: ({ signs }) => signs.has('limb-danger'),
  },
  {
    finding: 'foot-danger',
    row: 'R14',
    tier: 'emergency',
    source: 'common-practice',
    label: 'memory',
    words: 'Foot cold or pale, or it will not lift.',
    toAthlete: 'Keep weight off the leg.',
    fits: ['sports medicine'],
    hears: ['foot/emergency'],
    holds: ({ signs }) => signs.has('foot-danger'),
  },
  {
    finding: 'limb-deformed',
    row: 'R6',
    tier: 'emergency',
    source: 'common-practice',
    label: 'common-practice',
    words: 'Cannot take four steps, and the limb is deformed, numb, cold or open.',
    toAthlete: 'Do not move or straighten the limb.',
    fits: ['sports medicine'],
    hears: ['new-injury/emergency'],
    holds: ({ signs }) => signs.has('cannot-walk') && (signs.has('limb-danger') || signs.has('foot-danger')),
  },
  {
    finding: 'head-danger',
    row: 'R10',
    tier: 'emergency',
    source: 'concussion-recognise',
    label: 'read-2nd',
    words:
      'After a knock to the head: out cold, a fit, any vomiting, growing or new confusion, agitation, drowsiness, worsening headache, neck pain, weakness, or changed sight or hearing.',
    toAthlete: 'Stay with somebody, do not drive, and keep the neck still if it hurts.',
    fits: ['concussion'],
    hears: ['head/emergency'],
    holds: ({ signs }) => signs.has('head-danger'),
  },
  {
    finding: 'heat',
    row: 'R11',
    tier: 'emergency',
    source: 'heat-stroke-page',
    label: 'read-2nd',
    words: 'Hot and confused or staggering in exercise.',
    toAthlete: 'Shade and ice water now: cool first, transport second.',
    fits: ['sports medicine'],
    hears: ['heat/emergency'],
    holds: () => false,
  },
  {
    finding: 'infection-unwell',
    row: 'R3',
    tier: 'emergency',
    source: 'septic-knee',
    label: 'read',
    words: 'Signs of an infection after surgery, and very unwell or confused.',
    toAthlete: 'Do not wait for a call back.',
    fits: ['after surgery'],
    hears: ['infection/emergency'],
    holds: (morning) => morning.signs.has('very-unwell') && infected(morning),
  },
  {
    finding: 'bleeding-or-allergy',
    row: 'words',
    tier: 'emergency',
    source: 'common-practice',
    label: 'common-practice',
    words:
      'Bleeding that does not stop, a stroke-like sign or a swelling throat, in the athlete’s own words.',
    toAthlete: 'Press on a bleeding wound and do not stay alone.',
    fits: ['sports medicine'],
    hears: ['bleeding/emergency', 'allergy/emergency'],
    holds: () => false,
  },
  {
    finding: 'self-harm',
    row: 'R12',
    tier: 'emergency',
    source: 'mental-health-tool',
    label: 'read',
    words: 'Words about self-harm or not wanting to live. Not scored.',
    toAthlete: '',
    support: true,
    fits: ['mental health'],
    hears: ['self-harm/emergency'],
    holds: () => false,
  },
] as const satisfies readonly RedFlag[]

/** Temperature of 38.0 or more, chills, a hot red joint, or a wound that opens or drains. */
export function infected({ signs, temperatureC }: Parameters<RedFlag['holds']>[0]): boolean {
  const feverC = 38
  return (
    signs.has('chills') ||
    signs.has('wound') ||
    signs.has('hot-joint') ||
    (temperatureC !== undefined && temperatureC >= feverC)
  )
}
