import { Temporal } from 'temporal-polyfill'
import { readClock } from './clock.ts'
import type { Message } from './ledger.ts'
import type { Room } from './rooms.ts'
import type { Member } from './roster.ts'
import type { StoredFile } from './shelf.ts'
import type { OpenView } from './views.ts'
import type { Json, World } from './world.ts'

/** How the platform describes its things to an app. */

export function messagePortrait(world: World, message: Message, withMetadata = false): Json {
  const { identity } = world
  const own = message.from === identity.bot.user
  return {
    type: 'message',
    user: message.from,
    ts: message.ts,
    text: message.text,
    team: identity.team.id,
    ...(own && { bot_id: identity.bot.id, app_id: identity.app }),
    ...(message.blocks.length > 0 && { blocks: message.blocks }),
    ...(message.threadTs && { thread_ts: message.threadTs }),
    ...(message.files && {
      files: message.files.flatMap((id) => {
        const file = world.shelf.find(id)
        return file ? [filePortrait(world, file)] : []
      }),
    }),
    ...(message.edited && {
      edited: { user: message.from, ts: message.edited.ts },
    }),
    ...(withMetadata && message.metadata && { metadata: message.metadata }),
  }
}

export function viewPortrait(world: World, view: OpenView): Json {
  const { identity } = world
  const { sent } = view
  const modal = sent.type === 'modal'
  return {
    id: view.id,
    team_id: identity.team.id,
    type: sent.type,
    blocks: view.blocks,
    private_metadata: sent.private_metadata ?? '',
    callback_id: sent.callback_id ?? '',
    state: { values: view.state },
    hash: view.hash,
    title: modal && 'title' in sent ? sent.title : { type: 'plain_text', text: 'View Title', emoji: true },
    close: 'close' in sent ? (sent.close ?? null) : null,
    submit: 'submit' in sent ? (sent.submit ?? null) : null,
    clear_on_close: sent.clear_on_close ?? false,
    notify_on_close: sent.notify_on_close ?? false,
    external_id: sent.external_id ?? '',
    root_view_id: view.rootId,
    previous_view_id: view.previousId,
    app_id: identity.app,
    app_installed_team_id: identity.team.id,
    bot_id: identity.bot.id,
  }
}

export function memberPortrait(world: World, member: Member): Json {
  const { team } = world.identity
  const deactivated = member.deactivated ?? false
  const names = { real_name: member.name, display_name: member.name }
  return {
    id: member.id,
    team_id: member.connectedTeam ?? team.id,
    name: handle(member),
    deleted: deactivated,
    profile: {
      ...names,
      real_name_normalized: member.name,
      team: member.connectedTeam ?? team.id,
    },
    is_bot: false,
    is_app_user: false,
    ...(member.connectedTeam && { is_stranger: true }),
    // The platform leaves time zone and rights out for people who are gone.
    ...(!deactivated && {
      real_name: member.name,
      tz: member.timeZone,
      tz_label: member.timeZone,
      tz_offset: zoneOffsetSeconds(member.timeZone, world),
      is_admin: false,
      is_owner: false,
      is_primary_owner: false,
      is_restricted: member.guest !== undefined,
      is_ultra_restricted: member.guest === 'ultra-restricted',
    }),
    updated: Math.floor(readClock(world.clock) / 1000),
  }
}

export function roomPortrait(world: World, room: Room): Json {
  const direct = room.kind === 'direct'
  const group = room.kind === 'group'
  return {
    id: room.id,
    ...(direct ? { user: room.members[0] } : { name: room.name, name_normalized: room.name }),
    is_channel: room.kind === 'channel',
    is_group: room.kind === 'private',
    is_im: direct,
    is_mpim: group,
    is_private: room.kind !== 'channel',
    is_archived: room.archived,
    is_member: room.bot,
    context_team_id: world.identity.team.id,
  }
}

export function filePortrait(world: World, file: StoredFile): Json {
  return {
    id: file.id,
    name: file.name,
    title: file.title,
    size: file.lengthBytes,
    ...(file.altText && { alt_txt: file.altText }),
    user: world.identity.bot.user,
    filetype: file.name.split('.').at(-1) ?? '',
    is_public: false,
    channels: file.channel ? [file.channel] : [],
    url_private: `${world.origin()}/files/${file.id}/${encodeURIComponent(file.name)}`,
  }
}

export const handle = (member: Member) => member.name.toLowerCase().replaceAll(/\s+/g, '.')

function zoneOffsetSeconds(timeZone: string, world: World): number {
  return Temporal.Instant.from(world.clock.now()).toZonedDateTimeISO(timeZone).offsetNanoseconds / 1e9
}
