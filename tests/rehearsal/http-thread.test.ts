import { afterEach, expect, test } from 'vitest'
import { readable } from '../../src/rehearsal/readable.ts'
import { buttons, form, plain } from './samples.ts'
import { openHttpBot, openStage, type Stage, tidy } from './stage.ts'

afterEach(tidy)

async function stageWith(prepare: Parameters<typeof openHttpBot>[1]): Promise<Stage> {
  const stage = await openStage()
  await openHttpBot(stage, prepare)
  return stage
}

test('a command opens a form, the form refuses what cannot be, and the answers arrive as they were given', async () => {
  const submitted: unknown[] = []
  const { workspace, ada } = await stageWith((app) => {
    app.command('/morning', async ({ ack, client, body }) => {
      await client.views.open({ trigger_id: body.trigger_id, view: form })
      await ack()
    })
    app.view('morning', async ({ ack, view, client, body }) => {
      submitted.push(view.state.values)
      const worst = Number(view.state.values.pain?.number?.value)
      if (worst > 7) return ack({ response_action: 'errors', errors: { pain: 'Say that to a human.' } })
      await ack()
      await client.chat.postMessage({ channel: body.user.id, text: 'Written down.', blocks: buttons })
      return undefined
    })
  })
  const asked = await ada.command('/morning', 'now & here')
  expect(asked.acknowledged).toBe(true)
  expect(asked.modal?.title).toBe('Morning')
  expect(asked.modal?.values).toEqual({ pain: null, sleep: null, note: null })

  expect((await ada.submit()).errors).toEqual({
    pain: 'Please complete this required field.',
    sleep: 'Please complete this required field.',
  })
  ada.fill('Pain', 11)
  ada.fill('Sleep', 'Badly')
  expect((await ada.submit()).errors).toEqual({ pain: 'Please enter a number of at most 10.' })
  ada.fill('Pain', 2.5)
  expect((await ada.submit()).errors).toEqual({ pain: 'Please enter a whole number.' })
  ada.fill('note', 'x'.repeat(21))
  ada.fill('Pain', 8)
  expect((await ada.submit()).errors).toEqual({ note: 'Please enter at most 20 characters.' })
  expect(submitted).toEqual([])
  expect(() => ada.fill('Sleep', 'Not at all')).toThrow('not offered')

  ada.fill('note', null)
  expect(await ada.submit()).toMatchObject({
    sent: true,
    closed: false,
    errors: { pain: 'Say that to a human.' },
  })
  expect(ada.modal()?.values).toEqual({ pain: '8', sleep: 'badly', note: null })
  ada.fill('pain', 3)
  expect(await ada.submit()).toMatchObject({ sent: true, closed: true })
  await workspace.quiet()
  expect(ada.modal()).toBeUndefined()
  expect(submitted.at(-1)).toEqual({
    pain: { number: { type: 'number_input', value: '3' } },
    sleep: {
      choice: { type: 'radio_buttons', selected_option: { text: plain('Badly'), value: 'badly' } },
    },
    note: { text: { type: 'plain_text_input', value: null } },
  })
  const [message] = ada.messages()
  expect(message && readable(message, (id) => workspace.people.find(id)?.name)).toEqual([
    'A call for @Ada Moss',
    '[Acknowledge] [Stand down] ( Seen | Referred )',
  ])
})

test('a button is pressed by the words on it, a menu by what is chosen, and a question stands in between', async () => {
  const actions: unknown[] = []
  const { workspace, ada } = await stageWith((app) => {
    app.action(/.*/, async ({ ack, action, body, client }) => {
      await ack()
      actions.push(action)
      if (body.type !== 'block_actions' || !body.channel || !body.message) return
      await client.chat.update({ channel: body.channel.id, ts: body.message.ts, text: 'Taken', blocks: [] })
    })
    app.command('/call', async ({ ack, say }) => {
      await ack()
      await say({ text: 'call', blocks: buttons })
    })
  })
  await ada.command('/call')
  await workspace.quiet()
  const [call] = ada.messages()
  if (!call) throw new Error('no call came')
  expect(await ada.press(call, 'Stand down', { deny: true })).toMatchObject({
    asked: { title: 'Sure?', text: 'Nobody will be called.', confirm: 'Yes', deny: 'No' },
  })
  expect(actions).toEqual([])
  await ada.choose(call, 'disposition', 'Referred')
  await workspace.quiet()
  expect(actions).toMatchObject([{ action_id: 'disposition', selected_option: { value: 'referred' } }])
  expect(ada.messages().map((m) => [m.text, m.blocks.length, m.edited !== undefined])).toEqual([
    ['Taken', 0, true],
  ])
  await expect(ada.press(call, 'Acknowledge')).rejects.toThrow('not on the screen')
})

test('a command that answers with words is seen only by the one who typed it', async () => {
  const { ada, ben } = await stageWith((app) => {
    app.command('/today', async ({ ack }) => ack('Nothing today.'))
    app.command('/team', async ({ ack }) => ack({ response_type: 'in_channel', text: 'All run.' }))
  })
  const outcome = await ada.command('/today', '', { channel: 'CTEAM' })
  expect(outcome.reply).toMatchObject({ text: 'Nothing today.', ephemeralTo: 'UADA' })
  await ada.command('/team', '', { channel: 'CTEAM' })
  expect(ada.messages('CTEAM').map((m) => m.text)).toEqual(['Nothing today.', 'All run.'])
  expect(ben.messages('CTEAM').map((m) => m.text)).toEqual(['All run.'])
})

test('who does not answer within three seconds is reported to the person', async () => {
  const { ada } = await stageWith((app) => {
    app.command('/slow', async () => {})
  })
  const [unknown, slow] = await Promise.all([ada.command('/nobody'), ada.command('/slow')])
  expect(unknown.complaint).toContain('/nobody did not respond')
  expect(slow).toMatchObject({ acknowledged: false })
  expect(slow.complaint).toContain('/slow did not respond')
})
