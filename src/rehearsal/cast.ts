/** The people of the invented clinic. None of them exists. */
export type Player = {
  readonly id: string
  readonly name: string
  readonly role: 'athlete' | 'coach' | 'strength-coach' | 'therapist' | 'clinic-lead'
  readonly account: string
  readonly timeZone: string
}

export const cast: readonly Player[] = [
  { id: 'mika', name: 'Mika Oddvar', role: 'athlete', account: 'U1MIKA', timeZone: 'Europe/Lisbon' },
  { id: 'adaeze', name: 'Adaeze Quill', role: 'athlete', account: 'U2ADAEZE', timeZone: 'Europe/Lisbon' },
  { id: 'joran', name: 'Joran Pell', role: 'athlete', account: 'U3JORAN', timeZone: 'Atlantic/Azores' },
  { id: 'noor', name: 'Noor Castell', role: 'coach', account: 'U4NOOR', timeZone: 'Europe/Lisbon' },
  { id: 'iben', name: 'Iben Marlow', role: 'therapist', account: 'U5IBEN', timeZone: 'Europe/Lisbon' },
  { id: 'ravi', name: 'Ravi Thornby', role: 'therapist', account: 'U6RAVI', timeZone: 'Europe/Lisbon' },
  {
    id: 'sunniva',
    name: 'Sunniva Dray',
    role: 'clinic-lead',
    account: 'U7SUNNIVA',
    timeZone: 'Europe/Lisbon',
  },
  { id: 'tarek', name: 'Tarek Holm', role: 'athlete', account: 'U9TAREK', timeZone: 'Europe/Lisbon' },
  {
    id: 'tove',
    name: 'Tove Lindqvist',
    role: 'strength-coach',
    account: 'U10TOVE',
    timeZone: 'Europe/Lisbon',
  },
  { id: 'liv', name: 'Liv Aronsen', role: 'therapist', account: 'U8LIV', timeZone: 'Europe/Lisbon' },
]

export const coachesChannel = { id: 'C1COACHES', name: 'who-runs-today' }

export function player(id: string): Player {
  const found = cast.find((one) => one.id === id)
  if (!found) throw new Error(`nobody in the cast is ${id}; there is ${cast.map((one) => one.id).join(', ')}`)
  return found
}

/** A whole enrolment of one athlete, as a therapist signs it: who, what, the ladder, and the clearance. */
export function enrolment(
  athlete: Player,
  episode: {
    readonly site: string
    readonly side: 'left' | 'right'
    readonly onsetDay: string
    readonly clearedUntil: string
  },
) {
  const ceiling = { bodyWeightPct: 100, speedMps: 3.6, runMinutes: 25 }
  return [
    {
      kind: 'enrolment',
      athlete: athlete.id,
      timeZone: athlete.timeZone,
      promptAt: '06:30',
      therapist: 'iben',
      cover: 'ravi',
      coaches: ['noor'],
      consentToCoach: true,
      precautions: [],
    },
    {
      kind: 'episode',
      athlete: athlete.id,
      diagnosis: 'tibial stress reaction',
      tissue: 'bone',
      site: episode.site,
      side: episode.side,
      onsetDay: episode.onsetDay,
    },
    {
      kind: 'plan-signed',
      athlete: athlete.id,
      ladder: 'tibial-stress-reaction-lbpp@1',
      startRung: 1,
      days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'],
      ceiling,
      programme: 'trunk-and-balance',
    },
    {
      kind: 'clearance',
      athlete: athlete.id,
      state: 'unloaded running',
      ceiling,
      until: episode.clearedUntil,
    },
  ] as const
}
