/** People of the workspace. A stranger is somebody from a connected workspace. */
export type Member = {
  readonly id: string
  readonly name: string
  readonly timeZone: string
  readonly guest?: 'restricted' | 'ultra-restricted'
  readonly deactivated?: boolean
  /** The id of the other workspace that a stranger belongs to. */
  readonly connectedTeam?: string
  readonly snoozedUntilAt?: string
}

export type Roster = {
  add(member: Member): Member
  change(id: string, to: Partial<Omit<Member, 'id'>>): Member
  find(id: string): Member | undefined
  all(): readonly Member[]
}

export function openRoster(): Roster {
  const members = new Map<string, Member>()
  return {
    add(member) {
      if (!/^[UW][A-Z0-9]+$/.test(member.id)) throw new Error(`${member.id} is not the id of a person`)
      // Throws for a zone that this machine does not know.
      new Intl.DateTimeFormat('en', { timeZone: member.timeZone })
      members.set(member.id, member)
      return member
    },
    change(id, to) {
      const before = members.get(id)
      if (!before) throw new Error(`nobody here is ${id}`)
      const after = { ...before, ...to }
      members.set(id, after)
      return after
    },
    find: (id) => members.get(id),
    all: () => [...members.values()],
  }
}
