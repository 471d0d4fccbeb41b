import { existsSync } from 'node:fs'
import { readStoreSettings } from '../config.ts'
import { type Desk, openDesk } from '../desk/desk.ts'
import { openLibrary } from '../desk/library.ts'
import { type Face, StoreClosed, StoreDamaged } from '../desk/ports.ts'
import { SharedFault } from '../desk/shared-file.ts'
import type { Refusal } from '../rules/decision.ts'
import type { Caller } from '../rules/permissions.ts'
import { chartKeys, coverOf } from '../stores/cover.ts'
import { lowdbStore } from '../stores/lowdb.ts'
import { postgresStore } from '../stores/postgres.ts'
import { clockFor } from './rehearsed-clock.ts'

export const folders = {
  data: { type: 'string', default: 'data' },
  shared: { type: 'string', default: 'shared' },
  by: { type: 'string' },
} as const

export type Folders = { readonly data: string; readonly shared: string }

/** Sends nothing: what is queued here goes out when the bot is started again. */
const noFace: Face = {
  deliver: async () => ({ failed: 'the terminal sends nothing', outcome: 'not sent' }),
  find: async () => 'unsure',
}

/**
 * The clinic's desk from a terminal, while no bot runs on the folder; or on the database that the environment names, when
 * no folder is given. Says in words why it cannot be opened, and
 * answers with the exit code of the deed.
 */
export async function atTheDesk(
  { data, shared }: Folders,
  out: (line: string) => void,
  deed: (desk: Desk) => Promise<number>,
): Promise<number> {
  const where = readStoreSettings()
  const inDatabase = where.kind === 'postgres' && data === folders.data.default
  if (!inDatabase && !existsSync(data)) {
    out(`There are no charts in ${data}. Say where: --data FOLDER.`)
    return 2
  }
  try {
    const library = openLibrary(shared)
    const cover = coverOf(chartKeys(where.chartKeys))
    const store = inDatabase
      ? await postgresStore(where.database)
      : await lowdbStore(data, { onDamage: 'close', cover })
    try {
      const edges = { store, library, clinic: library.clinic, clock: clockFor(data), face: noFace }
      return await deed(openDesk({ ...edges, chartsAtHand: 4, report: () => {} }))
    } finally {
      await store.close()
    }
  } catch (error) {
    const known = [StoreClosed, StoreDamaged, SharedFault].some((kind) => error instanceof kind)
    if (!known) throw error
    out((error as Error).message)
    return 1
  }
}

/** Who types: the person named, or the clinic lead when there is one and nobody is named. */
export async function callerAt(desk: Desk, by: string | undefined): Promise<Caller | Refusal> {
  const { roster } = await desk.team()
  const leads = [...roster.people.values()].filter((one) => one.active && one.roles.includes('clinic-lead'))
  const person = by === undefined && leads.length === 1 ? leads[0] : roster.people.get(by ?? '')
  if (person?.active) return { id: person.id, roles: person.roles }
  return { refused: 'who', words: 'Say who you are: --by ID of somebody who works here.', field: 'by' }
}
