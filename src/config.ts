import { z } from 'zod'

/** What the process is told from outside. Read once, here and nowhere else. */
export type Settings = {
  readonly botToken: string
  /** Signs deliveries over HTTP; empty with a socket, where none are signed. */
  readonly signingSecret: string
  /** With it the bot opens a socket to the platform; without it, it listens for signed HTTP. */
  readonly appToken?: string
  readonly port: number
  readonly host: string
  readonly dataFolder: string
  readonly sharedFolder: string
  /** Before every command, where the workspace uses a name already. */
  readonly commandPrefix?: string
  /** Absent: charts in the data folder, without a key. */
  readonly store?: StoreSettings
}

const where = {
  SLACK_BOT_TOKEN: 'the app page, "OAuth & Permissions": the bot token, it begins with xoxb-',
  SLACK_SIGNING_SECRET: 'the app page, "Basic Information": the signing secret, 32 characters',
  SLACK_APP_TOKEN:
    'the app page, "Basic Information", "App-Level Tokens": one with connections:write, it begins with xapp-',
  PORT: 'a free port of this machine, 1 to 65535',
  HOST: 'the address to listen on; 127.0.0.1 behind a reverse proxy',
  SANDERLING_DATA: 'a folder for the charts that only this user can read',
  SANDERLING_SHARED: 'the folder with clinic.json and protocols/',
  SANDERLING_COMMAND_PREFIX: 'up to 12 small letters and digits, the same as given to "manifest --prefix"',
  SANDERLING_STORE: 'lowdb for one machine (the default), postgres for many',
  SANDERLING_DATABASE: 'the address of the PostgreSQL database',
  SANDERLING_CHART_KEYS: 'keys under which charts are kept; see README',
} as const

const Environment = z
  .object({
    SLACK_BOT_TOKEN: z.string({ error: 'is missing' }).regex(/^xoxb-\S+$/, 'does not look like a bot token'),
    SLACK_SIGNING_SECRET: z
      .string()
      .regex(/^[0-9a-f]{32}$/, 'is not 32 hexadecimal characters')
      .optional(),
    SLACK_APP_TOKEN: z
      .string()
      .regex(/^xapp-\S+$/, 'does not look like an app-level token')
      .optional(),
    PORT: z.coerce
      .number('is not a number')
      .int('is not a whole number')
      .min(1, 'is not a port')
      .max(65535, 'is not a port')
      .default(3000),
    HOST: z.string().min(1, 'is empty').default('127.0.0.1'),
    SANDERLING_DATA: z.string().min(1, 'is empty').default('data'),
    SANDERLING_SHARED: z.string().min(1, 'is empty').default('shared'),
    SANDERLING_COMMAND_PREFIX: z
      .string()
      .regex(/^([a-z0-9]{1,12})?$/, 'is not a prefix')
      .default(''),
  })
  .refine((e) => e.SLACK_SIGNING_SECRET || e.SLACK_APP_TOKEN, {
    error: 'is missing (or set SLACK_APP_TOKEN to connect over a socket)',
    path: ['SLACK_SIGNING_SECRET'],
    when: () => true,
  })

/** The settings, or a line for each that is missing or malformed, with where to get it. Values are never shown. */
export function readSettings(
  environment: NodeJS.ProcessEnv = process.env,
): Settings | { readonly faults: readonly string[] } {
  const parsed = Environment.safeParse(environment)
  const store = StoreEnvironment.safeParse(environment)
  if (!parsed.success || !store.success) {
    const issues = [...(parsed.error?.issues ?? []), ...(store.error?.issues ?? [])]
    const faults = issues.map((issue) => {
      const name = String(issue.path[0]) as keyof typeof where
      return `${name} ${issue.message}. Where to get it: ${where[name]}.`
    })
    return { faults: [...new Set(faults)] }
  }
  const { data } = parsed
  return {
    botToken: data.SLACK_BOT_TOKEN,
    signingSecret: data.SLACK_SIGNING_SECRET ?? '',
    ...(data.SLACK_APP_TOKEN ? { appToken: data.SLACK_APP_TOKEN } : {}),
    port: data.PORT,
    host: data.HOST,
    dataFolder: data.SANDERLING_DATA,
    sharedFolder: data.SANDERLING_SHARED,
    commandPrefix: data.SANDERLING_COMMAND_PREFIX,
    store: readStoreSettings(environment),
  }
}

/** Where charts are kept. Apart from the rest, so that charts can be looked after without the platform's secrets. */
export type StoreSettings = {
  readonly kind: 'lowdb' | 'postgres'
  readonly dataFolder: string
  readonly database: string
  readonly chartKeys: string
}

const StoreEnvironment = z.object({
  SANDERLING_STORE: z.enum(['lowdb', 'postgres'], 'is neither lowdb nor postgres').default('lowdb'),
  SANDERLING_DATA: z.string().min(1, 'is empty').default('data'),
  SANDERLING_DATABASE: z.string().default(''),
  SANDERLING_CHART_KEYS: z.string().default(''),
})

export function readStoreSettings(environment: NodeJS.ProcessEnv = process.env): StoreSettings {
  const data = StoreEnvironment.parse(environment)
  return {
    kind: data.SANDERLING_STORE,
    dataFolder: data.SANDERLING_DATA,
    database: data.SANDERLING_DATABASE,
    chartKeys: data.SANDERLING_CHART_KEYS,
  }
}
