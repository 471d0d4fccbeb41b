import type { Provenance } from '@medplum/fhirtypes'
import type { Entry, EntryOf } from '../../chart/entries.ts'
import { type Dossier, type Page, refTo, signerRef, terminology } from './naming.ts'
import { replacedEntry } from './status.ts'

/** Who signed what: one provenance for each entry that became resources, and one for each amendment that struck one. */
export function provenancePages(dossier: Dossier, pages: readonly Page[]): readonly Page[] {
  const byEntry = new Map<Entry, Page[]>()
  for (const page of pages) {
    const before = page.from && byEntry.get(page.from)
    if (before) before.push(page)
    else if (page.from) byEntry.set(page.from, [page])
  }
  return [...byEntry].flatMap(([entry, of]): Page[] => {
    const struck = dossier.struck.get(entry.id)
    return [signing(dossier, entry, of, byEntry), ...(struck ? [striking(dossier, struck, of)] : [])]
  })
}

function signing(
  dossier: Dossier,
  entry: Entry,
  pages: readonly Page[],
  byEntry: ReadonlyMap<Entry, readonly Page[]>,
): Page {
  const replaced = replacedEntry(dossier, entry)
  const before = replaced ? byEntry.get(replaced)?.[0] : undefined
  const resource: Provenance = {
    resourceType: 'Provenance',
    target: pages.map((page) => refTo(dossier, page.key)),
    recorded: entry.recordedAt,
    activity: { coding: [terminology('v3-DataOperation', replaced ? 'UPDATE' : 'CREATE')] },
    agent: [
      {
        type: { coding: [terminology('provenance-participant-type', 'author')] },
        who: signerRef(dossier, entry.author),
      },
    ],
    ...(before ? { entity: [{ role: 'revision', what: refTo(dossier, before.key) }] } : {}),
  }
  return { key: `Provenance/${entry.id}`, resource }
}

function striking(dossier: Dossier, amendment: EntryOf<'amendment'>, pages: readonly Page[]): Page {
  const resource: Provenance = {
    resourceType: 'Provenance',
    target: pages.map((page) => refTo(dossier, page.key)),
    recorded: amendment.recordedAt,
    activity: { coding: [terminology('v3-DataOperation', 'NULLIFY')] },
    reason: [{ text: amendment.words }],
    agent: [
      {
        type: { coding: [terminology('provenance-participant-type', 'author')] },
        who: signerRef(dossier, amendment.author),
      },
    ],
  }
  return { key: `Provenance/${amendment.id}`, resource }
}
