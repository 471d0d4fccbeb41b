import { afterEach, beforeEach, expect, test } from 'vitest'
import { type ClinicAtWork, fillMorning, openClinic } from './clinic.ts'

let clinic: ClinicAtWork
beforeEach(async () => {
  clinic = await openClinic(['mika'])
})
afterEach(() => clinic.close())

test.each(['expired_trigger_id', 'exchanged_trigger_id'])(
  'a form that cannot be opened any more (%s) is said so, and nothing was changed',
  async (error) => {
    clinic.workspace.faults.refuse({ method: 'views.open', error, times: 1 })
    const mika = clinic.as('mika')
    await mika.command('/checkin')
    await clinic.settle()
    expect(mika.modal()).toBeUndefined()
    expect(mika.messages().at(-1)?.text).toContain('That took too long, and nothing was changed')
    await mika.command('/checkin')
    await clinic.settle()
    expect(mika.modal()?.title).toBe('Check-in')
  },
)

test('a chart that is out of date is decided on what stands, not on what was seen', async () => {
  const iben = clinic.as('iben')
  await clinic.submit('iben', { kind: 'hold', athlete: 'mika', words: 'Seen limping' })
  await iben.command('/chart', 'mika')
  await clinic.settle()
  const [hold] = (await clinic.bot.desk.charts.read('mika')).holds
  await clinic.submit('iben', { kind: 'hold-lifted', athlete: 'mika', hold: hold?.id, words: 'Walks freely' })
  await iben.press({ modal: true }, 'open-lift')
  await clinic.settle()
  expect(iben.modal()?.title, 'no form opens').toBe('Chart')
  expect(iben.messages().at(-1)?.text).toContain('Nothing is on hold any more')
})

test('a form whose own words were tampered with is refused', async () => {
  const mika = await fillMorning(clinic, 'mika')
  const length = (await clinic.bot.desk.charts.read('mika')).entries.length
  const view = mika.modal()
  expect(view?.privateMetadata).toContain('mika')
  await clinic.workspace.deliver({
    kind: 'interaction',
    payload: {
      type: 'view_submission',
      team: { id: 'T0REHEARSAL', domain: 'rehearsal' },
      user: { id: 'U1MIKA', name: 'mika', team_id: 'T0REHEARSAL' },
      api_app_id: 'A0REHEARSAL',
      token: 'x',
      trigger_id: '1.2.3',
      response_urls: [],
      is_enterprise_install: false,
      view: {
        id: 'V1',
        type: 'modal',
        callback_id: 'check-in',
        private_metadata: '{"athlete":"adaeze"',
        state: { values: {} },
        blocks: view?.blocks,
        hash: '1',
        root_view_id: 'V1',
        title: { type: 'plain_text', text: 'Check-in' },
        app_id: 'A0REHEARSAL',
        bot_id: 'B0BOT',
      },
    },
  } as never)
  await clinic.settle()
  expect((await clinic.bot.desk.charts.read('mika')).entries.length).toBe(length)
})

test('whoever is named twice, or by nobody, is asked for the whole name', async () => {
  const iben = clinic.as('iben')
  expect((await iben.command('/chart', 'zzz')).reply?.text).toContain('nobody of that name')
  expect((await iben.command('/chart', 'a')).reply?.text).toContain('whole name')
})
