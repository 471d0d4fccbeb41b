import type { Store } from '../desk/ports.ts'
import type { KeptChart } from './kept-chart.ts'
import type { Outbox } from './outbox.ts'

type Folder = {
  readonly chartOf: (subject: string) => KeptChart
  readonly box: Outbox
  readonly claims: { empty(): Promise<void> }
  /** Charts that the index leaves out while their files change. */
  readonly leftOut: Set<string>
  readonly nextOrder: (places: number) => number
  readonly saveIndex: () => Promise<void>
}

/** How entries of a data folder give way to tombstones, where the law lets somebody be forgotten. */
export function givingWay(folder: Folder): Pick<Store, 'erase' | 'blank'> {
  const { chartOf, box, claims, leftOut, nextOrder, saveIndex } = folder

  return {
    async erase(subject, tombstone, atLength) {
      const ready = () => forgetting(subject, () => box.erase(subject))
      const outcome = await chartOf(subject).erase(tombstone, atLength, () => nextOrder(1), ready)
      await remember(subject)
      return outcome
    },

    async blank(subject, blanking, atLength) {
      const ready = () => forgetting(subject, () => box.forget(subject, blanking.naming))
      const outcome = await chartOf(subject).blank(blanking, atLength, ready)
      await remember(subject)
      return outcome
    },
  }

  /** The index forgets the chart before the file changes, for good if that fails: a start reads the file it finds. */
  function forgetting(subject: string, letGo: () => void): Promise<void> {
    leftOut.add(subject)
    letGo()
    return saveIndex()
  }

  async function remember(subject: string): Promise<void> {
    leftOut.delete(subject)
    await saveIndex()
    if (!box.anyHeld()) await claims.empty()
  }
}
