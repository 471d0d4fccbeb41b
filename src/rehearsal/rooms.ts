/** A place for messages: a channel, or the direct messages between the bot and people. */
export type Room = {
  readonly id: string
  readonly name: string
  readonly kind: 'channel' | 'private' | 'direct' | 'group'
  members: readonly string[]
  /** Whether the bot was invited. */
  bot: boolean
  archived: boolean
}

export type NewChannel = {
  readonly id: string
  readonly name: string
  readonly members: readonly string[]
  readonly isPrivate?: boolean
  readonly bot?: boolean
  readonly archived?: boolean
}

export type Rooms = {
  add(channel: NewChannel): Room
  find(id: string): Room | undefined
  all(): readonly Room[]
  /** The direct messages with these people, opened when they are not yet. */
  direct(people: readonly string[]): Room
  directIfOpen(people: readonly string[]): Room | undefined
}

export function openRooms(): Rooms {
  const rooms = new Map<string, Room>()
  const keep = (room: Room) => {
    rooms.set(room.id, room)
    return room
  }
  const directId = (people: readonly string[]) =>
    people.length === 1 ? `D${people[0]?.slice(1)}` : `G${[...people].sort().join('').replaceAll('U', '')}`
  return {
    add: ({ id, name, members, isPrivate = false, bot = true, archived = false }) => {
      if (!/^[CG][A-Z0-9]+$/.test(id)) throw new Error(`${id} is not the id of a channel`)
      return keep({
        id,
        name,
        members,
        bot,
        archived,
        kind: isPrivate ? 'private' : 'channel',
      })
    },
    find: (id) => rooms.get(id),
    all: () => [...rooms.values()],
    directIfOpen: (people) => rooms.get(directId(people)),
    direct(people) {
      const id = directId(people)
      const kind = people.length === 1 ? 'direct' : 'group'
      const name = kind === 'direct' ? 'directmessage' : `mpdm-${people.join('--').toLowerCase()}`
      return (
        rooms.get(id) ??
        keep({
          id,
          kind,
          name,
          members: [...people],
          bot: true,
          archived: false,
        })
      )
    },
  }
}
