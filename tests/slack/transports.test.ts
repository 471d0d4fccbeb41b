import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { type ClinicAtWork, fillMorning, openClinic } from './clinic.ts'

/** The same doors on both transports: whatever passes on one must pass on the other. */
for (const transport of ['http', 'socket'] as const)
  describe(`the thread over ${transport}`, () => {
    let clinic: ClinicAtWork

    beforeAll(async () => {
      clinic = await openClinic(['mika', 'adaeze'], transport)
    })
    afterAll(() => clinic.close())

    test('the health page answers', async () => {
      const answer = await fetch(`http://127.0.0.1:${clinic.bot.port}/health`)
      expect([answer.status, await answer.text()]).toEqual([200, 'up\n'])
    })

    test('a check-in is on disk when the form closes, and the prescription follows', async () => {
      const mika = await fillMorning(clinic, 'mika')
      const sent = await mika.submit()
      expect(sent.closed).toBe(true)
      expect((await clinic.bot.desk.charts.read('mika')).checkIns).toHaveLength(1)
      await clinic.settle()
      expect(mika.messages().at(-1)?.text).toBe('Your plan for today is here.')
    })

    test('a red flag calls the therapist, who acknowledges with a press', async () => {
      const adaeze = await fillMorning(clinic, 'adaeze', { 'signs-always': ['chest-pain'] })
      expect((await adaeze.submit()).closed).toBe(true)
      await clinic.settle()
      const iben = clinic.as('iben')
      const call = iben
        .messages()
        .findLast((message) => JSON.stringify(message.blocks).includes('"acknowledge"'))
      if (!call) throw new Error('nobody was called')
      await iben.press(call, 'acknowledge')
      await clinic.settle()
      const chart = await clinic.bot.desk.charts.read('adaeze')
      expect(chart.escalations[0]?.acknowledged?.author).toBe('iben')
    })

    test('a typed message is kept before it is acknowledged, and one without a word of alarm is answered', async () => {
      const outcome = await clinic.as('mika').say('I have chest pain')
      expect(outcome.complaint).toBeUndefined()
      const { escalations } = await clinic.bot.desk.charts.read('mika')
      expect(
        escalations.map(({ tier }) => tier),
        'on disk by the time of the answer',
      ).toEqual(['emergency'])
      await clinic.as('adaeze').say('see you at four')
      await clinic.settle()
      expect(JSON.stringify(clinic.as('adaeze').messages().at(-1))).toContain('Your therapist gets a note')
    })

    test('a command answers only the one who typed it', async () => {
      const reply = (await clinic.as('noor').command('/cleared')).reply
      expect(reply?.ephemeralTo).toBe('U4NOOR')
      expect(reply?.text).toContain('Adaeze Quill*: not cleared today')
    })
  })

test('a stop lets what is under way end: what was accepted is sent before the bot goes', async () => {
  const clinic = await openClinic(['mika'])
  const mika = await fillMorning(clinic, 'mika')
  clinic.workspace.faults.slow(150)
  const sent = await mika.submit()
  await clinic.bot.stop()
  clinic.workspace.faults.slow(0)
  expect(sent.closed).toBe(true)
  expect(mika.messages().at(-1)?.text).toBe('Your plan for today is here.')
  await clinic.workspace.close()
})
