import { setTimeout as pause } from 'node:timers/promises'
import type { KnownBlock } from '@slack/types'
import { WebAPIPlatformError, type WebClient } from '@slack/web-api'
import type { Chart } from '../chart/chart.ts'
import type { Day } from '../chart/day.ts'
import type { PictureName, Pictures } from '../desk/ports.ts'
import { context, plain } from './blocks.ts'

/**
 * Pictures as files that the platform keeps private to the app. A new picture of the same chart for the same reader
 * takes the place of the old one, which is deleted. A picture that fails never takes its message with it.
 */
export type PictureShelf = {
  /** An image block, or the words that stand in for a picture that could not be drawn; undefined with too little to draw. */
  show(client: WebClient, reader: string, what: Wanted): Promise<KnownBlock | undefined>
}

export type Wanted = { readonly name: PictureName; readonly chart: Chart; readonly today: Day }

export function pictureShelf(
  pictures: Pictures,
  report: (event: string, about: Record<string, string>) => void,
): PictureShelf {
  const shown = new Map<string, string>()

  async function show(
    client: WebClient,
    reader: string,
    { name, chart, today }: Wanted,
  ): Promise<KnownBlock | undefined> {
    try {
      const drawn = await pictures.draw(name, chart, today)
      if (!drawn) return undefined
      const file = Buffer.from(drawn.png)
      const uploaded = await client.filesUploadV2({
        file,
        filename: `${name}.png`,
        alt_text: drawn.alt.slice(0, 1000),
      })
      const id = uploaded.files?.[0]?.files?.[0]?.id
      if (!id) throw new Error('the platform kept no file')
      await takeDown(client, `${reader}/${chart.athlete}/${name}`, id)
      return {
        type: 'image',
        slack_file: { id },
        alt_text: drawn.alt.slice(0, 2000),
        title: plain(drawn.title, 2000),
      }
    } catch (error) {
      report('picture-failed', { picture: name, why: error instanceof Error ? error.name : 'unknown' })
      return context('The picture could not be drawn this time; the words above say the same.')
    }
  }

  async function takeDown(client: WebClient, place: string, id: string): Promise<void> {
    const before = shown.get(place)
    shown.set(place, id)
    if (before) await client.files.delete({ file: before })
  }

  return { show }
}

const waitsMs = [0, 300, 1000]

/**
 * Sends blocks that may hold fresh pictures. The platform takes files in after it has answered, so a refusal is tried
 * again shortly; in the end the message goes without its pictures, and says so.
 */
export async function sendWithPictures(
  blocks: readonly KnownBlock[],
  send: (blocks: KnownBlock[]) => Promise<unknown>,
): Promise<void> {
  for (const wait of waitsMs) {
    await pause(wait)
    try {
      await send([...blocks])
      return
    } catch (error) {
      const refused =
        error instanceof WebAPIPlatformError &&
        /slack[_ ]file|invalid_blocks/.test(JSON.stringify(error.data))
      if (!refused) throw error
    }
  }
  const words = blocks.filter((block) => block.type !== 'image')
  await send([...words, context('A picture is missing: the platform did not take it in time.')])
}
