import { afterEach, expect, test } from 'vitest'
import { buttons } from './samples.ts'
import { openHttpBot, openStage, tidy } from './stage.ts'

afterEach(tidy)

type Respond = (message: object | string) => Promise<unknown>

async function stageWithRespond() {
  const stage = await openStage()
  let respond: Respond = async () => {}
  await openHttpBot(stage, (app) => {
    app.command('/today', async (args) => {
      respond = args.respond as Respond
      await args.ack()
    })
    app.command('/post', async ({ ack, say }) => {
      await ack()
      await say({ text: 'post', blocks: buttons })
    })
    app.action('acknowledge', async (args) => {
      respond = args.respond as Respond
      await args.ack()
    })
  })
  return { ...stage, respond: (message: object | string) => respond(message) }
}

test('a response address takes five answers and no sixth', async () => {
  const { ada, respond } = await stageWithRespond()
  await ada.command('/today')
  for (let i = 1; i <= 5; i++) await respond(`answer ${i}`)
  await expect(respond('answer 6')).rejects.toMatchObject({ statusCode: 404 })
  expect(ada.messages().map((m) => m.ephemeralTo)).toEqual(Array(5).fill('UADA'))
})

test('a response address is good for half an hour', async () => {
  const { ada, clock, respond } = await stageWithRespond()
  await ada.command('/today')
  clock.pushBy({ minutes: 29, seconds: 59 })
  await respond('in time')
  clock.pushBy({ seconds: 1 })
  await expect(respond('too late')).rejects.toMatchObject({ statusCode: 404 })
  expect(ada.messages().map((m) => m.text)).toEqual(['in time'])
})

test('an answer can go to everybody, stand in place of what was pressed, or take it away', async () => {
  const { workspace, ada, respond } = await stageWithRespond()
  await ada.command('/today', '', { channel: 'CTEAM' })
  await respond({ text: 'for all', response_type: 'in_channel' })
  expect(
    workspace
      .as('UBEN')
      .messages('CTEAM')
      .map((m) => m.text),
  ).toEqual(['for all'])
  await ada.command('/post')
  await workspace.quiet()
  const [post] = ada.messages()
  if (!post) throw new Error('nothing was posted')
  await ada.press(post, 'Acknowledge')
  await respond({ text: 'taken', replace_original: true })
  expect(ada.messages()).toMatchObject([{ ts: post.ts, text: 'taken', blocks: [] }])
  await respond({ delete_original: true })
  expect(ada.messages()).toEqual([])
})

test('what could not be posted cannot be answered either', async () => {
  const { ada, respond } = await stageWithRespond()
  await ada.command('/today')
  await expect(respond({ text: '' })).rejects.toMatchObject({ statusCode: 400 })
  expect(ada.messages()).toEqual([])
})
