import { readClock } from './clock.ts'
import type { Message } from './ledger.ts'
import { handle, messagePortrait, viewPortrait } from './portraits.ts'
import type { Room } from './rooms.ts'
import type { Member } from './roster.ts'
import type { OpenView, State } from './views.ts'
import type { Json, World } from './world.ts'

/** What the app is sent, in the platform's own shapes. */

export function commandPayload(
  world: World,
  member: Member,
  room: Room,
  command: string,
  text: string,
): Json {
  const { team, app } = world.identity
  return {
    token: verificationToken,
    team_id: team.id,
    team_domain: team.domain,
    channel_id: room.id,
    channel_name: room.name,
    user_id: member.id,
    user_name: handle(member),
    command,
    text,
    api_app_id: app,
    is_enterprise_install: 'false',
    response_url: responseUrl(world, member, room),
    trigger_id: world.triggers.issue({ person: member.id }),
  }
}

export type Pressed = { readonly action: Json; readonly state: State }

export function messageActionPayload(world: World, member: Member, message: Message, pressed: Pressed): Json {
  const room = world.rooms.find(message.channel)
  const ephemeral = message.ephemeralTo !== undefined
  return {
    ...interaction(world, member, 'block_actions'),
    container: {
      type: 'message',
      message_ts: message.ts,
      channel_id: message.channel,
      is_ephemeral: ephemeral,
    },
    channel: { id: message.channel, name: room?.name },
    ...(!ephemeral && { message: messagePortrait(world, message, true) }),
    state: { values: pressed.state },
    response_url: `${world.origin()}/reply/${world.responseUrls.issue({
      person: member.id,
      channel: message.channel,
      messageTs: message.ts,
    })}`,
    trigger_id: world.triggers.issue({ person: member.id }),
    actions: [pressed.action],
  }
}

export function viewActionPayload(world: World, member: Member, view: OpenView, action: Json): Json {
  const inModal = view.sent.type === 'modal' ? { modal: view.id } : {}
  return {
    ...interaction(world, member, 'block_actions'),
    container: { type: 'view', view_id: view.id },
    view: viewPortrait(world, view),
    trigger_id: world.triggers.issue({ person: member.id, ...inModal }),
    actions: [action],
  }
}

export function submissionPayload(world: World, member: Member, view: OpenView): Json {
  return {
    ...interaction(world, member, 'view_submission'),
    trigger_id: world.triggers.issue({ person: member.id, modal: view.id }),
    view: viewPortrait(world, view),
    response_urls: [],
  }
}

export function closedPayload(world: World, member: Member, view: OpenView, cleared: boolean): Json {
  return {
    ...interaction(world, member, 'view_closed'),
    view: viewPortrait(world, view),
    is_cleared: cleared,
  }
}

let events = 0

export function eventPayload(world: World, event: Json): Json {
  const { team, app, bot } = world.identity
  const number = String(++events).padStart(8, '0')
  return {
    token: verificationToken,
    team_id: team.id,
    api_app_id: app,
    event,
    type: 'event_callback',
    event_id: `Ev${number}`,
    event_time: Math.floor(readClock(world.clock) / 1000),
    authorizations: [
      {
        enterprise_id: null,
        team_id: team.id,
        user_id: bot.user,
        is_bot: true,
        is_enterprise_install: false,
      },
    ],
    is_ext_shared_channel: false,
    event_context: `4-${number}`,
  }
}

/** Sent by the platform since before signatures; nothing may rely on it. */
const verificationToken = 'rehearsal-verification-token'

function interaction(world: World, member: Member, type: string): Json {
  const { team, app } = world.identity
  return {
    type,
    team: { id: team.id, domain: team.domain },
    user: {
      id: member.id,
      username: handle(member),
      name: handle(member),
      team_id: member.connectedTeam ?? team.id,
    },
    api_app_id: app,
    token: verificationToken,
    enterprise: null,
    is_enterprise_install: false,
  }
}

function responseUrl(world: World, member: Member, room: Room): string {
  return `${world.origin()}/reply/${world.responseUrls.issue({ person: member.id, channel: room.id })}`
}
