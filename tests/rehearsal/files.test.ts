import { afterEach, expect, test } from 'vitest'
import { openClient, openStage, refusalOf, tidy } from './stage.ts'

afterEach(tidy)

const bytes = Buffer.from('a picture, as far as anybody here can tell')
const picture = (id: string) => [{ type: 'image' as const, alt_text: 'pain', slack_file: { id } }]

async function upload(client: ReturnType<typeof openClient>, filename = 'pain.png') {
  const { upload_url: url = '', file_id: id = '' } = await client.files.getUploadURLExternal({
    filename,
    length: bytes.length,
  })
  return { url, id, send: (body: Buffer) => fetch(url, { method: 'POST', body: new Uint8Array(body) }) }
}

test('a picture can be shown from when its upload is complete, and not after it was deleted', async () => {
  const stage = await openStage()
  const client = openClient(stage)
  const show = (id: string) =>
    refusalOf(client.chat.postMessage({ channel: 'UADA', text: 'a', blocks: picture(id) }))
  const { id, send } = await upload(client)
  expect(await show(id)).toBe('invalid_blocks')
  expect(await refusalOf(client.files.completeUploadExternal({ files: [{ id }] }))).toBe('file_not_found')
  expect((await send(bytes)).status).toBe(200)
  expect(await show(id)).toBe('invalid_blocks')
  const done = await client.files.completeUploadExternal({ files: [{ id, title: 'Pain' }] })
  expect(done.files?.[0]).toMatchObject({ id, title: 'Pain' })
  expect(await show(id)).toBe('not refused')
  expect((await client.files.info({ file: id })).file).toMatchObject({ name: 'pain.png', size: bytes.length })
  expect(stage.workspace.files.find(id)?.bytes?.equals(bytes)).toBe(true)
  await client.files.delete({ file: id })
  expect(await show(id)).toBe('invalid_blocks')
  expect(await refusalOf(client.files.delete({ file: id }))).toBe('file_not_found')
})

test('a picture still in processing is refused, and taken when the clock has moved on', async () => {
  const stage = await openStage()
  const client = openClient(stage)
  stage.workspace.faults.fileProcessing(2)
  const { id, send } = await upload(client)
  await send(bytes)
  await client.files.completeUploadExternal({ files: [{ id }] })
  const publish = () =>
    refusalOf(client.views.publish({ user_id: 'UADA', view: { type: 'home', blocks: picture(id) } }))
  expect(await publish()).toBe('invalid_arguments')
  stage.clock.pushBy({ seconds: 2 })
  expect(await publish()).toBe('not refused')
})

test('a file that is no picture, one that nobody knows and one of another length are refused', async () => {
  const stage = await openStage()
  const client = openClient(stage)
  const { url, id, send } = await upload(client, 'record.pdf')
  expect((await send(bytes.subarray(1))).status).toBe(400)
  const headers = { 'content-type': 'multipart/form-data; boundary=x' }
  expect((await fetch(url, { method: 'POST', headers, body: 'no form' })).status).toBe(400)
  await send(bytes)
  await client.files.completeUploadExternal({ files: [{ id }] })
  const show = (file: string) =>
    refusalOf(client.chat.postMessage({ channel: 'UADA', text: 'a', blocks: picture(file) }))
  expect(await show(id)).toBe('invalid_blocks')
  expect(await show('FNONE')).toBe('invalid_blocks')
})

test('the client library uploads in one go and shares where it is told to', async () => {
  const stage = await openStage()
  await openClient(stage).filesUploadV2({
    filename: 'record.pdf',
    file: bytes,
    channel_id: 'CTEAM',
    initial_comment: 'The record',
  })
  const [message] = stage.ben.messages('CTEAM')
  expect(message).toMatchObject({ text: 'The record', files: [expect.stringMatching(/^F/)] })
  expect(stage.workspace.files.find(message?.files?.[0] ?? '')?.bytes?.equals(bytes)).toBe(true)
})
