import type { Cover } from './cover.ts'
import type { Disk, Report } from './disk.ts'

export type LowdbOptions = {
  readonly report?: Report
  /**
   * What damage to one chart does to a start. 'close': that chart alone is refused, and the others work;
   * 'refuse': the store does not open (`StoreDamaged`).
   */
  readonly onDamage?: 'close' | 'refuse'
  readonly disk?: Disk
  readonly cover?: Cover
}
