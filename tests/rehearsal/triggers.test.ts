import { afterEach, expect, test } from 'vitest'
import { form } from './samples.ts'
import { openClient, openHttpBot, openStage, refusalOf, tidy } from './stage.ts'

afterEach(tidy)

/** A stage on which `/morning` hands out its trigger and does nothing else. */
async function stageWithTrigger() {
  const stage = await openStage()
  let trigger = ''
  await openHttpBot(stage, (app) => {
    app.command('/morning', async ({ ack, body }) => {
      trigger = body.trigger_id
      await ack()
    })
  })
  await stage.ada.command('/morning')
  const client = openClient(stage)
  const open = (view = form) => refusalOf(client.views.open({ trigger_id: trigger, view }))
  return { ...stage, client, open, trigger }
}

test('a trigger opens one view', async () => {
  const { ada, open } = await stageWithTrigger()
  expect(await open()).toBe('not refused')
  expect(ada.modal()?.title).toBe('Morning')
  expect(await open()).toBe('exchanged_trigger_id')
})

test('a trigger lives for less than three seconds on the clock', async () => {
  const still = await stageWithTrigger()
  still.clock.pushBy({ seconds: 2.999 })
  expect(await still.open()).toBe('not refused')
  const gone = await stageWithTrigger()
  gone.clock.pushBy({ seconds: 3 })
  expect(await gone.open()).toBe('expired_trigger_id')
  expect(gone.ada.modal()).toBeUndefined()
})

test('a trigger nobody gave out opens nothing, and a view that is refused does not use one up', async () => {
  const { client, open } = await stageWithTrigger()
  expect(await refusalOf(client.views.open({ trigger_id: '1.2.3', view: form }))).toBe('invalid_trigger_id')
  const { title: _, ...untitled } = form
  expect(await open(untitled as typeof form)).toBe('invalid_arguments')
  expect(await open()).toBe('not refused')
})

test('a trigger from outside a modal pushes nothing over one', async () => {
  const { client, trigger, open } = await stageWithTrigger()
  expect(await refusalOf(client.views.push({ trigger_id: trigger, view: form }))).toBe('invalid_trigger_id')
  expect(await open()).toBe('exchanged_trigger_id')
})
