import { afterEach, expect, test } from 'vitest'
import { plain } from './samples.ts'
import { openClient, openHttpBot, openStage, type Stage, tidy } from './stage.ts'

afterEach(tidy)

const option = (value: string) => ({ text: plain(value), value })
const options = ['one', 'two', 'three'].map(option)
const blocks = [
  {
    type: 'actions' as const,
    block_id: 'row',
    elements: [
      { type: 'checkboxes' as const, action_id: 'boxes', options },
      { type: 'overflow' as const, action_id: 'more', options: [option('why'), option('amend')] },
      { type: 'datepicker' as const, action_id: 'day' },
      { type: 'button' as const, action_id: 'go', text: plain('Go') },
    ],
  },
]

/** A stage with one message in the team's channel and an app that notes what it is told. */
async function stageWithMessage(): Promise<Stage & { told: Record<string, unknown>[] }> {
  const stage = await openStage()
  const told: Record<string, unknown>[] = []
  await openHttpBot(stage, (app) => {
    app.action(/.*/, async ({ ack, action, body }) => {
      told.push({
        ...action,
        by: body.user.id,
        state:
          typeof body === 'object' && 'state' in body && typeof body.state === 'object' && body.state.values,
      })
      await ack()
    })
  })
  await openClient(stage).chat.postMessage({ channel: 'CTEAM', text: 'list', blocks })
  return { ...stage, told }
}

test('boxes, an overflow menu and a day are told in the shapes of the platform', async () => {
  const { ada, told } = await stageWithMessage()
  const [list] = ada.messages('CTEAM')
  if (!list) throw new Error('nothing was posted')
  await ada.choose(list, 'boxes', ['one', 'three'])
  await ada.choose(list, 'more', 'why')
  await ada.choose(list, 'day', '2026-03-02')
  expect(told).toMatchObject([
    { type: 'checkboxes', block_id: 'row', selected_options: [{ value: 'one' }, { value: 'three' }] },
    { type: 'overflow', selected_option: { value: 'why' } },
    { type: 'datepicker', selected_date: '2026-03-02' },
  ])
  await expect(ada.choose(list, 'more', 'erase')).rejects.toThrow('not offered')
})

test('what one person chose on a message goes with that person and nobody else', async () => {
  const { ada, ben, told } = await stageWithMessage()
  const [list] = ada.messages('CTEAM')
  if (!list) throw new Error('nothing was posted')
  await ada.choose(list, 'boxes', ['two'])
  await ada.press(list, 'Go')
  await ben.press(list, 'Go')
  const boxes = (values: unknown) => ({ row: { boxes: { selected_options: values } } })
  expect(told.slice(1)).toMatchObject([
    { by: 'UADA', state: boxes([{ value: 'two' }]) },
    { by: 'UBEN', state: boxes([]) },
  ])
})

test('two people can press the same button at once, and both are told', async () => {
  const { ada, ben, told } = await stageWithMessage()
  const [list] = ada.messages('CTEAM')
  if (!list) throw new Error('nothing was posted')
  await Promise.all([ada.press(list, 'Go'), ben.press(list, 'Go')])
  expect(told.map((action) => action.by).toSorted()).toEqual(['UADA', 'UBEN'])
})

test('nobody presses what he cannot see', async () => {
  const stage = await stageWithMessage()
  stage.workspace.people.add({ id: 'UCAT', name: 'Cat', timeZone: 'Europe/Paris' })
  const [list] = stage.ada.messages('CTEAM')
  if (!list) throw new Error('nothing was posted')
  const cat = stage.workspace.as('UCAT')
  await expect(cat.press(list, 'Go')).rejects.toThrow('sees no such message')
  expect(() => cat.messages('CTEAM')).toThrow('not in CTEAM')
  expect(() => stage.workspace.as('UNONE')).toThrow('nobody here')
})
