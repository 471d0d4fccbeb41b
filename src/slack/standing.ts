/** What the workspace says of an account. A stranger comes from a connected workspace. */
export type Account = {
  readonly standing: 'member' | 'guest' | 'deactivated' | 'stranger' | 'bot'
  readonly name: string
  readonly timeZone: string | undefined
}

/** A person as the platform describes one. */
export type Described = {
  readonly id?: string
  readonly name?: string
  readonly real_name?: string
  readonly profile?: { readonly real_name?: string }
  readonly tz?: string
  readonly deleted?: boolean
  readonly is_bot?: boolean
  readonly is_stranger?: boolean
  readonly is_restricted?: boolean
  readonly is_ultra_restricted?: boolean
  readonly team_id?: string
}

export function accountFrom(found: Described, account: string, homeTeam: string | undefined): Account {
  const name = found.profile?.real_name || found.real_name || account
  return { standing: standingOf(found, homeTeam), name, timeZone: found.tz }
}

function standingOf(found: Described, homeTeam: string | undefined): Account['standing'] {
  if (found.deleted) return 'deactivated'
  if (found.is_bot) return 'bot'
  if (found.is_stranger || (homeTeam !== undefined && found.team_id !== homeTeam)) return 'stranger'
  return found.is_restricted || found.is_ultra_restricted ? 'guest' : 'member'
}
