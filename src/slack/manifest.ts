/** What can be typed, with what the platform shows beside it. The order is that of a morning. */
export const commandWords = {
  '/checkin': "Answer this morning's questions",
  '/today': "Today's prescription, or today's list",
  '/session': 'Log the run that was done, or exercises',
  '/cleared': 'Who is cleared today, and at what load',
  '/why': 'The last decision, with its reasons and sources',
  '/chart': 'The caseload, or the chart of an athlete',
  '/enrol': 'Enrol an athlete: person, episode, plan',
  '/cover': 'Who answers calls; people and roles for the clinic lead',
} as const
export type CommandName = keyof typeof commandWords

/** A workspace where a name is taken says a prefix: `tw` makes `/checkin` `/tw-checkin`. */
export function prefixed(name: CommandName, prefix: string): string {
  return prefix === '' ? name : `/${prefix}-${name.slice(1)}`
}

/** The app as the platform is told of it; `host` is where the bot is reached from outside. */
export function manifestFor({ prefix, host }: { readonly prefix: string; readonly host: string }): object {
  const url = `https://${host}/slack/events`
  return {
    _metadata: { major_version: 2, minor_version: 1 },
    display_information: {
      name: 'Sanderling',
      description: 'Carries dose, answer and decision from day to day on the way back to running',
      background_color: '#3b4a54',
      long_description:
        "Sanderling works for a sports-performance team that brings injured athletes back to running on an LBPP treadmill. It asks each athlete every morning how the body answered, prescribes today's unloaded run inside what the therapist signed, tells coaches who is cleared at what load and nothing medical, and calls a human on a red flag until one answers. It gives no diagnosis; in an emergency call the local emergency number.",
    },
    features: {
      app_home: {
        home_tab_enabled: true,
        messages_tab_enabled: true,
        messages_tab_read_only_enabled: false,
      },
      bot_user: { display_name: 'sanderling', always_online: true },
      slash_commands: (Object.keys(commandWords) as CommandName[]).map((name) => ({
        command: prefixed(name, prefix),
        url,
        description: commandWords[name],
        should_escape: true,
      })),
    },
    oauth_config: { scopes: { bot: scopes } },
    settings: {
      event_subscriptions: { request_url: url, bot_events: events },
      interactivity: { is_enabled: true, request_url: url },
      org_deploy_enabled: false,
      socket_mode_enabled: false,
      token_rotation_enabled: false,
    },
  }
}

const events = ['app_home_opened', 'message.im']
const scopes = [
  'chat:write',
  'commands',
  'im:history',
  'im:write',
  'channels:history',
  'groups:history',
  'users:read',
  'files:write',
]
