import type { App } from '@slack/bolt'
import type { ModalView } from '@slack/types'
import { afterEach, expect, test } from 'vitest'
import { form, plain } from './samples.ts'
import { openClient, openHttpBot, openStage, refusalOf, tidy } from './stage.ts'

afterEach(tidy)

const titled = (title: string, more: Partial<ModalView> = {}): ModalView => ({
  ...form,
  title: plain(title),
  ...more,
})
const more: ModalView['blocks'] = [
  {
    type: 'actions',
    block_id: 'go',
    elements: [{ type: 'button', action_id: 'deeper', text: plain('Deeper') }],
  },
]

async function stageWith(prepare: (app: App) => void, first = form) {
  const stage = await openStage()
  await openHttpBot(stage, (app) => {
    app.command('/morning', async ({ ack, client, body }) => {
      await client.views.open({ trigger_id: body.trigger_id, view: first })
      await ack()
    })
    prepare(app)
  })
  await stage.ada.command('/morning')
  return stage
}

function fillIn(ada: Awaited<ReturnType<typeof stageWith>>['ada']) {
  ada.fill('Pain', 3)
  ada.fill('Sleep', 'Well')
}

test('a submission can be answered with another view, one on top, or the end of all', async () => {
  const answers: Record<string, object> = {
    Morning: { response_action: 'push', view: titled('Second') },
    Second: { response_action: 'update', view: titled('Third') },
    Third: { response_action: 'clear' },
  }
  const { ada } = await stageWith((app) => {
    app.view('morning', async ({ ack, view }) => ack(answers[view.title.text] as never))
  })
  fillIn(ada)
  expect(await ada.submit()).toMatchObject({ closed: false, modal: { title: 'Second', under: 1 } })
  fillIn(ada)
  expect(await ada.submit()).toMatchObject({ closed: false, modal: { title: 'Third', under: 1 } })
  fillIn(ada)
  expect(await ada.submit()).toMatchObject({ closed: true })
  expect(ada.modal()).toBeUndefined()
})

test('what is submitted on top goes back to the view below', async () => {
  const { ada } = await stageWith((app) => {
    app.view('morning', async ({ ack, view }) =>
      view.title.text === 'Morning' ? ack({ response_action: 'push', view: titled('Second') }) : ack(),
    )
  })
  fillIn(ada)
  await ada.submit()
  fillIn(ada)
  expect(await ada.submit()).toMatchObject({
    closed: true,
    modal: { title: 'Morning', values: { pain: '3' } },
  })
})

test('an answer that no client could show keeps the form with what was typed, and says so', async () => {
  const wrong = [
    { response_action: 'errors', errors: { nowhere: 'no such field' } },
    { response_action: 'errors', errors: {} },
    { response_action: 'update', view: titled('x'.repeat(25)) },
    { response_action: 'vanish' },
    'thank you',
  ]
  const { ada } = await stageWith((app) => {
    app.view('morning', async ({ ack }) => ack(wrong.shift() as never))
  })
  fillIn(ada)
  while (wrong.length > 0) {
    const came = await ada.submit()
    expect(came).toMatchObject({ closed: false, modal: { values: { pain: '3' } } })
    expect(came.complaint).toContain('trouble')
  }
})

test('a form that is not acknowledged stays with what was typed, and says so', async () => {
  const { ada } = await stageWith(() => {})
  fillIn(ada)
  const came = await ada.submit()
  expect(came).toMatchObject({ acknowledged: false, closed: false, modal: { values: { sleep: 'well' } } })
  expect(came.complaint).toContain('did not respond')
})

test('three views lie on each other at most', async () => {
  const refusals: string[] = []
  const { workspace, ada } = await stageWith(
    (app) => {
      app.action('deeper', async ({ ack, body, client }) => {
        await ack()
        const trigger_id = 'trigger_id' in body ? body.trigger_id : ''
        refusals.push(
          await refusalOf(client.views.push({ trigger_id, view: titled('Deep', { blocks: more }) })),
        )
      })
    },
    titled('Top', { blocks: more }),
  )
  for (let i = 0; i < 3; i++) {
    await ada.press({ modal: true }, 'Deeper')
    await workspace.quiet()
  }
  expect(refusals).toEqual(['not refused', 'not refused', 'push_limit_reached'])
  expect(ada.modal()?.under).toBe(2)
})

test('an update keeps what was typed only under the same block and action, and a stale one is refused', async () => {
  const stage = await stageWith(() => {})
  const { ada } = stage
  const client = openClient(stage)
  const id = ada.modal()?.id ?? ''
  fillIn(ada)
  const blocks = form.blocks.map((block) =>
    block.block_id === 'pain' ? { ...block, block_id: 'pain-2' } : block,
  )
  const first = await client.views.update({ view_id: id, view: titled('Again', { blocks }) })
  expect(ada.modal()).toMatchObject({ title: 'Again', values: { 'pain-2': null, sleep: 'well' } })
  const hash = first.view?.hash ?? ''
  expect(await refusalOf(client.views.update({ view_id: id, view: titled('New'), hash }))).toBe('not refused')
  expect(await refusalOf(client.views.update({ view_id: id, view: titled('Old'), hash }))).toBe(
    'hash_conflict',
  )
  expect(ada.modal()?.title).toBe('New')
  expect(await refusalOf(client.views.update({ view_id: 'VNONE', view: form }))).toBe('not_found')
})

test('leaving is told when the view asked for it, with all that lay under it when everything is left', async () => {
  const closed: unknown[] = []
  const { ada } = await stageWith((app) => {
    app.view({ callback_id: 'morning', type: 'view_closed' }, async ({ ack, body }) => {
      closed.push([body.view.title.text, 'is_cleared' in body && body.is_cleared])
      await ack()
    })
    app.view('morning', async ({ ack }) => ack({ response_action: 'push', view: titled('Second') }))
  })
  fillIn(ada)
  await ada.submit()
  await ada.close()
  expect(closed).toEqual([['Second', false]])
  expect(ada.modal()?.title).toBe('Morning')
  await ada.submit()
  await ada.close(true)
  expect(closed.slice(1)).toEqual([
    ['Second', true],
    ['Morning', true],
  ])
})

test('the answer of a menu in a form stays with the form; a button in it is told at once, with the state', async () => {
  const told: unknown[] = []
  const { ada } = await stageWith(
    (app) => {
      app.action('deeper', async ({ ack, body }) => {
        told.push('view' in body && body.view?.state.values.pain)
        await ack()
      })
    },
    titled('Morning', { blocks: [...form.blocks, ...more] }),
  )
  await ada.choose({ modal: true }, 'Sleep', 'Badly')
  ada.fill('pain', 4)
  expect(told).toEqual([])
  await ada.press({ modal: true }, 'Deeper')
  expect(told).toEqual([{ number: { type: 'number_input', value: '4' } }])
  expect(ada.modal()?.values).toMatchObject({ sleep: 'badly' })
})
