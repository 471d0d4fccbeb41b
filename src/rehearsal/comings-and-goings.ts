import type { Acknowledgement } from './deliveries.ts'
import type { EventPost } from './event-post.ts'
import { memberPortrait } from './portraits.ts'
import type { Member } from './roster.ts'
import type { World } from './world.ts'

/** People who come, change and leave, and what the app is told of it. */
export type ComingsAndGoings = {
  /** Somebody new: `team_join`. */
  joins(member: Member): Promise<Acknowledgement>
  /** Another zone, name or standing, or gone altogether: `user_change`. */
  changes(id: string, to: Partial<Omit<Member, 'id'>>): Promise<Acknowledgement>
  /** Out of a channel: `member_left_channel`. */
  leaves(id: string, channel: string): Promise<Acknowledgement>
}

export function comingsAndGoings(world: World, events: EventPost): ComingsAndGoings {
  const tell = (type: string, fields: object) =>
    events.tell({ type, ...fields, event_ts: world.ledger.stamp() })
  return {
    joins: (member) => tell('team_join', { user: memberPortrait(world, world.roster.add(member)) }),
    changes: (id, to) => tell('user_change', { user: memberPortrait(world, world.roster.change(id, to)) }),
    leaves(id, channel) {
      const room = world.rooms.find(channel)
      if (!room?.members.includes(id)) throw new Error(`${id} is not in ${channel}`)
      room.members = room.members.filter((member) => member !== id)
      const channel_type = room.kind === 'private' ? 'G' : 'C'
      return tell('member_left_channel', { user: id, channel, channel_type, team: world.identity.team.id })
    },
  }
}
