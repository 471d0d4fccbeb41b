import type { KnownBlock } from '@slack/types'
import { dayAt } from '../chart/day.ts'
import { nameOf, type Person } from '../chart/roster.ts'
import type { PictureName } from '../desk/ports.ts'
import { escaped, section } from './blocks.ts'
import type { Doorway } from './door.ts'
import { sendWithPictures } from './picture-shelf.ts'
import { type Pressed, say } from './pressed.ts'

const names: readonly PictureName[] = ['pain-and-dose', 'ladder', 'week-load', 'readiness']

/**
 * The pictures of one chart, as a direct message to whoever asked: a modal cannot wait for drawing and uploading. The
 * caller has been asked for `see-chart` before this.
 */
export async function showPictures(
  doorway: Doorway,
  person: Person,
  athlete: string,
  pressed: Pressed,
): Promise<void> {
  const { desk, pictures } = doorway
  const { client, body } = pressed
  const [chart, team] = [await desk.charts.read(athlete), await desk.team()]
  const today = dayAt(desk.clock.now(), chart.enrolment?.timeZone ?? team.clinic.timeZone)
  await say(pressed, 'The pictures are being drawn; they come as a message.')
  const drawn = await Promise.all(
    names.map((name) => pictures.show(client, person.id, { name, chart, today })),
  )
  const blocks = drawn.filter((block): block is KnownBlock => block !== undefined)
  const head = section(`*${escaped(nameOf(team, athlete))}*, ${today}`)
  await sendWithPictures([head, ...blocks], (ready) =>
    client.chat.postMessage({
      channel: body.user.id,
      text: 'The pictures that you asked for.',
      blocks: ready,
    }),
  )
}
