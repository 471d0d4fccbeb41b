import { Role } from '../chart/roster.ts'
import { type Door, grants, type Reach } from '../rules/permissions.ts'

/** `permissions`: who may use which door, and on whose chart. What is empty is denied. */
export async function run(_: readonly string[], out: (line: string) => void): Promise<number> {
  const roles = Role.options
  const doors = Object.keys(grants) as Door[]
  const wide = Math.max(...doors.map((door) => door.length))
  const row = (name: string, cells: readonly string[]) =>
    out(
      [name.padEnd(wide), ...cells.map((cell, i) => cell.padEnd(roles[i]?.length ?? 0))].join('  ').trimEnd(),
    )
  row('', roles)
  for (const door of doors) {
    const granted: Partial<Record<Role, Reach>> = grants[door]
    row(
      door,
      roles.map((role) => granted[role] ?? '-'),
    )
  }
  out('')
  out(
    'own: their own chart. caseload: whom they treat, cover or are called about. squad: who agreed to share',
  )
  out('with them. all: everybody. -: denied. Guests and people of connected workspaces: denied everywhere.')
  return 0
}
