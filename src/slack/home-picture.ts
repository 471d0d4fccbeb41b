import type { KnownBlock } from '@slack/types'
import type { WebClient } from '@slack/web-api'
import type { Chart } from '../chart/chart.ts'
import { type Day, dayAt } from '../chart/day.ts'
import type { Person } from '../chart/roster.ts'
import type { Doorway } from './door.ts'

/** The picture of the ladder on the athlete's Home. It is drawn when somebody looks, and again only after a change. */
export type HomePicture = {
  /** As it was drawn for this very chart; undefined when there is nothing to show or it is still to be drawn. */
  known(person: Person): Promise<KnownBlock | undefined>
  /** Draws what is not known yet: the picture, or the words that stand in for one that failed. */
  drawn(client: WebClient, person: Person): Promise<KnownBlock | undefined>
}

type Kept = { readonly of: string; readonly block: KnownBlock }

export function homePicture({ desk, pictures }: Doorway): HomePicture {
  const kept = new Map<string, Kept>()

  /** Undefined before the first run: then the words say everything. */
  async function wanted(person: Person): Promise<{ chart: Chart; today: Day; of: string } | undefined> {
    if (!person.roles.includes('athlete')) return undefined
    const chart = await desk.charts.read(person.id)
    if (!chart.plan || chart.sessions.length === 0) return undefined
    const today = dayAt(desk.clock.now(), chart.enrolment?.timeZone ?? desk.clinic.timeZone)
    return { chart, today, of: `${chart.sessions.at(-1)?.id} ${chart.sessions.length} ${chart.plan.id}` }
  }

  return {
    async known(person) {
      const want = await wanted(person)
      const before = kept.get(person.id)
      return before && before.of === want?.of ? before.block : undefined
    },
    async drawn(client, person) {
      const want = await wanted(person)
      if (!want || kept.get(person.id)?.of === want.of) return undefined
      const { chart, today, of } = want
      const block = await pictures.show(client, person.id, { name: 'ladder', chart, today })
      // What stands in for a picture that failed is not kept: the next look tries again.
      if (block?.type === 'image') kept.set(person.id, { of, block })
      return block
    },
  }
}
