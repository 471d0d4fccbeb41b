import type { EntryOf } from '../chart/entries.ts'
import type { ClinicEntry, JournalErased } from '../chart/roster.ts'

/** What gives way in the clinic's journal when an athlete's chart was erased. */
export type JournalErasure = {
  readonly places: ReadonlyMap<number, JournalErased>
  readonly closing: JournalErased
}

/**
 * Every entry that says who the athlete is gives way to a tombstone that names nobody but whoever erased. Somebody who
 * also worked here stays: what they signed in other people's records must still be signed by somebody. Undefined when
 * the journal does not name the athlete.
 */
export function eraseFromJournal(
  journal: readonly ClinicEntry[],
  tombstone: EntryOf<'erased'>,
): JournalErasure | 'worked-here' | undefined {
  const { athlete, author, recordedAt, why, law } = tombstone
  const naming = journal.flatMap((entry, place) => (names(entry, athlete) ? [{ entry, place }] : []))
  if (naming.length === 0) return undefined
  if (naming.some(({ entry }) => !saysWho(entry, athlete))) return 'worked-here'
  const erased = (id: string): JournalErased => ({ id, author, recordedAt, kind: 'erased', why, law })
  const places = naming.map(({ place }) => [place, erased(`erased/${recordedAt}/${place + 1}`)] as const)
  return {
    places: new Map(places),
    closing: { ...erased(`erased/${recordedAt}`), places: naming.length },
  }
}

function names(entry: ClinicEntry, person: string): boolean {
  if (entry.author === person) return true
  switch (entry.kind) {
    case 'person':
      return entry.person.id === person
    case 'cover':
      return entry.person === person || entry.coveredBy === person
    case 'on-call':
      return entry.person === person
    default:
      return false
  }
}

/** It tells of the athlete as an athlete, and somebody else signed it. */
function saysWho(entry: ClinicEntry, athlete: string): boolean {
  return (
    entry.kind === 'person' &&
    entry.author !== athlete &&
    entry.person.roles.every((role) => role === 'athlete')
  )
}

/** What no erasure of ours reaches, in words for the clinic lead, who has to see to it. */
export const notReached: readonly string[] = [
  'Not reached, see to it yourself:',
  '- backups, and copies of the data folder or the database, until they are overwritten or you erase them;',
  '- what was exported or handed on before: ask whoever has it;',
  '- the chat platform: the messages that were sent to the athlete and about them, in the coaches’ channel too, the',
  '  pictures, and the account. Delete them there, or ask the platform to;',
  '- files that "store restore" put aside, and old blocks of the disk;',
  '- the id of the chart, on its tombstone: it shows that the record was erased and not lost.',
]
