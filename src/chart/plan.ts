import { z } from 'zod'
import { Weekday } from './day.ts'
import { Ceiling } from './dose.ts'
import { FamilySettings } from './family.ts'
import { Ladder } from './ladder.ts'
import { LadderWish } from './ladder-wish.ts'
import { Programme } from './programme.ts'
import { signed } from './signing.ts'

export const PlanSigned = z.object({
  ...signed,
  kind: z.literal('plan-signed'),
  /** The ladder itself is copied in: later edits of the file never reach back (D3). */
  ladder: Ladder,
  /** What the ladder was built from; absent for one of the shelf. The rules can build it again (D20). */
  builtFrom: LadderWish.optional(),
  startRung: z.number().int().positive(),
  /** Days on which the athlete may run. */
  days: z.array(Weekday).min(1),
  ceiling: Ceiling,
  /** The rules of pain that were signed, complete; absent: the strict defaults of the tissue. */
  settings: FamilySettings.optional(),
  /** What is done on days without a run, copied in as the ladder is. */
  programme: Programme.optional(),
})
