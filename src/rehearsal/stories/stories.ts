import type { Stage } from '../stage.ts'
import { families } from './families.ts'
import { redFlag } from './red-flag.ts'
import { threeWeeks } from './three-weeks.ts'

/** What `rehearse --story` can play, by name; the first is played when none is named. */
export const stories: Readonly<Record<string, (stage: Stage) => Promise<void>>> = {
  'three-weeks': threeWeeks,
  'red-flag': redFlag,
  families,
}
