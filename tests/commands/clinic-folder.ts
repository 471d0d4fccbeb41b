import { mkdtemp } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { keepClock } from '../../src/commands/rehearsed-clock.ts'
import type { EntryLike } from '../../src/desk/ports.ts'
import { lowdbStore } from '../../src/stores/lowdb.ts'
import type { DeskAtWork } from '../desk/desk.ts'

/** What a desk has in memory, as a data folder that a command can open; its clock stands where the desk's does. */
export async function folderOf({ store, clock }: DeskAtWork): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'sanderling-test-'))
  const kept = await lowdbStore(folder)
  for (const { subject, dueAt, open } of await store.index()) {
    const entries = (await store.read(subject)).map(({ before: _, ...entry }) => entry as object as EntryLike)
    await kept.commit({ subject, entries, notices: [], atLength: 0, dueAt: dueAt ?? null, open })
  }
  await kept.close()
  keepClock(folder, clock)
  return folder
}

/** Runs a command as it would be typed, and answers with its exit code and what it said. */
export async function typed(
  command: { run(argv: readonly string[], out: (line: string) => void): Promise<number> },
  ...argv: readonly string[]
): Promise<{ code: number; said: string }> {
  const lines: string[] = []
  const code = await command.run(argv, (line) => lines.push(line))
  return { code, said: lines.join('\n') }
}
