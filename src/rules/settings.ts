import written from '../../shared/criteria/families.json' with { type: 'json' }
import type { Chart } from '../chart/chart.ts'
import { defaultsOf, Families, type FamilySettings } from '../chart/family.ts'
import type { Tissue } from '../chart/ladder.ts'

/** The families as they are shipped; a clinic's own stand in its shared folder and are copied into each plan. */
export const shippedFamilies: Families = Families.parse(written)

const defaults: Record<Tissue, FamilySettings> = {
  bone: defaultsOf(shippedFamilies.bone),
  joint: defaultsOf(shippedFamilies.joint),
  tendon: defaultsOf(shippedFamilies.tendon),
  muscle: defaultsOf(shippedFamilies.muscle),
}

/** The rules of pain in force: as signed with the plan, or else the strict defaults. Bone when nobody said what heals. */
export function settingsOf(chart: Chart): FamilySettings {
  return chart.plan?.settings ?? defaults[chart.episode?.tissue ?? 'bone']
}

/** The published source behind a setting of a tissue. */
export function sourceOf(chart: Chart, setting: keyof FamilySettings): string {
  const family = shippedFamilies[chart.episode?.tissue ?? 'bone']
  return family.settings[setting]?.source ?? 'common-practice'
}
