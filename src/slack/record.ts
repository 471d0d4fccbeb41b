import type { Person } from '../chart/roster.ts'
import { type Doorway, handIn } from './door.ts'
import { type Pressed, refuse, say } from './pressed.ts'

/** The athlete's own record as a file in their direct messages. It is written down before it leaves. */
export async function sendRecord(doorway: Doorway, person: Person, pressed: Pressed): Promise<void> {
  const { desk, recordOf } = doorway
  const asked = { kind: 'exported', athlete: person.id, what: 'all', for: 'the athlete' }
  const outcome = await handIn(doorway, person, asked)
  if ('refused' in outcome) return refuse(pressed, outcome)
  await pressed.ack()
  await say(pressed, 'Your record is being put together. It comes as a file in a moment.')
  const file = await recordOf(outcome.chart, person.id, await desk.team(), desk.clock.now())
  const { client, body } = pressed
  const { channel } = await client.conversations.open({ users: body.user.id })
  await client.filesUploadV2({
    channel_id: channel?.id ?? '',
    file: Buffer.from(file),
    filename: 'my-record.zip',
    title: 'My record',
    initial_comment: 'Your file is here.',
  })
}
