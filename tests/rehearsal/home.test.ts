import type { HomeView } from '@slack/types'
import { afterEach, expect, test } from 'vitest'
import { buttons, plain } from './samples.ts'
import { openClient, openHttpBot, openStage, refusalOf, tidy } from './stage.ts'

afterEach(tidy)

const home = (words: string): HomeView => ({
  type: 'home',
  blocks: [{ type: 'section', text: plain(words) }, ...buttons],
})

test('Home is published when it is opened, and what is pressed on it is told', async () => {
  const stage = await openStage()
  const told: string[] = []
  await openHttpBot(stage, (app) => {
    app.event('app_home_opened', async ({ event, client }) => {
      const visit = event.view ? 'again' : 'first'
      await client.views.publish({ user_id: event.user, view: home(`Today, ${visit}`) })
    })
    app.action('acknowledge', async ({ ack, body, action }) => {
      told.push(`${body.user.id} ${'value' in action ? action.value : ''}`)
      await ack()
    })
  })
  expect((await stage.ada.openHome())?.lines[0]).toBe('Today, first')
  expect((await stage.ada.openHome())?.lines[0]).toBe('Today, again')
  expect(await stage.ada.press({ home: true }, 'Acknowledge')).toMatchObject({ acknowledged: true })
  expect(told).toEqual(['UADA call/1'])
  await expect(stage.ben.press({ home: true }, 'Acknowledge')).rejects.toThrow('no Home')
})

test('a Home that was published in between is not overwritten by somebody holding an older one', async () => {
  const stage = await openStage()
  const client = openClient(stage)
  const { view } = await client.views.publish({ user_id: 'UADA', view: home('one') })
  const hash = view?.hash ?? ''
  expect(await refusalOf(client.views.publish({ user_id: 'UADA', view: home('two'), hash }))).toBe(
    'not refused',
  )
  expect(await refusalOf(client.views.publish({ user_id: 'UADA', view: home('three'), hash }))).toBe(
    'hash_conflict',
  )
})

test('what is said in direct messages is told to the app, what is said in a channel is not', async () => {
  const stage = await openStage()
  const heard: string[] = []
  await openHttpBot(stage, (app) => {
    app.message(async ({ message }) => {
      heard.push('text' in message ? String(message.text) : '')
    })
  })
  await stage.ada.say('is 3 < 4 & 5 > 4?')
  await stage.ada.say('hello all', 'CTEAM')
  await stage.workspace.quiet()
  expect(heard).toEqual(['is 3 &lt; 4 &amp; 5 &gt; 4?'])
  expect(stage.ben.messages('CTEAM').map((m) => m.text)).toEqual(['hello all'])
})
