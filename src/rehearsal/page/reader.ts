import { coachesChannel, player } from '../cast.ts'
import type { NameOf } from '../mark-up.ts'
import type { Stage } from '../stage.ts'

/** Whoever looks at the page, and what it takes to read it as that person. */
export type Reader = {
  readonly stage: Stage
  readonly who: string
  readonly zone: string
  readonly nameOf: NameOf
  readonly people: readonly Choice[]
  readonly rooms: readonly Choice[]
}
export type Choice = { readonly id: string; readonly name: string }

export function readerAt(stage: Stage, who: string): Reader {
  const people = stage.workspace.people.all().map(({ id, name }) => ({ id, name }))
  const rooms = stage.workspace.channels
    .all()
    .filter(({ kind }) => kind === 'channel' || kind === 'private')
    .map(({ id, name }) => ({ id, name }))
  const names = new Map([...people, ...rooms].map(({ id, name }) => [id, name]))
  return { stage, who, zone: player(who).timeZone, nameOf: (id) => names.get(id), people, rooms }
}

/** Channels of this person, the coaches' first. */
export function roomsOf({ stage, who }: Reader): Choice[] {
  const { account } = player(who)
  return stage.workspace.channels
    .all()
    .filter((room) => (room.kind === 'channel' || room.kind === 'private') && room.members.includes(account))
    .sort((a, b) => Number(b.id === coachesChannel.id) - Number(a.id === coachesChannel.id))
}

/** `Mon 16 Mar, 06:30` on the wall of this zone. */
export function timeInWords(at: string, zone: string): string {
  const parts = {
    weekday: 'short',
    day: 'numeric',
    month: 'short',
    hour: '2-digit',
    minute: '2-digit',
  } as const
  return new Intl.DateTimeFormat('en-GB', { ...parts, timeZone: zone }).format(new Date(at))
}

/** The instant of a message's stamp. */
export const instantOf = (ts: string) => new Date(Math.trunc(Number(ts) * 1000)).toISOString()
