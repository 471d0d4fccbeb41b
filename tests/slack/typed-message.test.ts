import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { StoreClosed } from '../../src/desk/ports.ts'
import { type ClinicAtWork, fillMorning, openClinic } from './clinic.ts'

let clinic: ClinicAtWork
beforeEach(async () => {
  clinic = await openClinic(['mika'])
})
afterEach(() => clinic.close())

const says = async (who: string, text: string) => {
  const outcome = await clinic.as(who).say(text)
  await clinic.settle()
  return outcome
}
const chart = () => clinic.bot.desk.charts.read('mika')
const newest = (who: string) => JSON.stringify(clinic.as(who).messages().at(-1)?.blocks ?? '')
const all = (who: string) => JSON.stringify(clinic.as(who).messages())
const typedIn = async () => (await chart()).entries.filter((entry) => entry.kind === 'typed-message')

/** At midday, with today's run prescribed. */
async function midday() {
  await (await fillMorning(clinic, 'mika')).submit()
  await clinic.settle()
  clinic.clock.pushTo('2026-03-16T12:00:00.000Z')
  await clinic.bot.round()
  await clinic.settle()
}

describe('an athlete types a message instead of filling a form', () => {
  test('chest pain at midday rings the therapist, sets a hold and takes the run back', async () => {
    await midday()
    const words = 'hey, I have had chest pain since the warm-up'
    await says('mika', words)
    const after = await chart()
    expect(after.escalations.at(-1)).toMatchObject({ concern: 'body', tier: 'emergency' })
    expect(after.holds).toHaveLength(1)
    expect(newest('iben')).toContain('Emergency call: Mika Oddvar')
    expect(newest('iben'), 'quoted to the therapist').toContain(words)
    expect(all('mika')).toContain('*Call 112 now*')
    expect(after.prescriptions.at(-1)).toMatchObject({ what: 'rest', move: 'hold' })
    expect((await clinic.as('mika').command('/today')).reply?.text).toContain('on hold')
    for (const id of ['noor', 'liv', 'sunniva']) expect(all(id)).not.toContain('chest')
    expect(all('noor')).toContain('not cleared today')
  })

  test('the same sign again updates the alarm, and a worse one rings anew', async () => {
    await says('mika', 'my calf is hot and swollen')
    const [first] = (await chart()).escalations
    expect(first?.tier).toBe('urgent')
    await says('mika', 'my calf is hot and swollen')
    expect((await chart()).escalations).toHaveLength(1)
    await says('mika', 'now I have chest pain and cannot breathe')
    const [alarm, ...more] = (await chart()).escalations
    expect(more).toHaveLength(0)
    expect(alarm).toMatchObject({ id: first?.id, tier: 'emergency' })
    expect(newest('iben')).toContain('Worse, or a new sign')
  })

  test('words of self-harm reach the licensed person only; the athlete gets the fixed answer with the crisis line', async () => {
    const words = 'I want to hurt myself'
    await says('mika', words)
    expect(all('mika')).toContain('A human will contact you')
    expect(all('mika')).toContain('808 24 24 24')
    expect(newest('liv')).toContain(words)
    for (const id of ['iben', 'ravi', 'noor', 'sunniva']) expect(all(id)).not.toContain('hurt')
  })

  test('words for the next visit become a note, and the athlete hears that nobody was called', async () => {
    await says('mika', 'calf tightness only when running, gone when I stop')
    expect(newest('iben')).toContain('calf tightness only when running')
    expect(newest('mika')).toContain('Nobody is being called about it')
    expect((await chart()).escalations).toHaveLength(0)
  })

  test('words of eating become a note in confidence, with the fixed answer', async () => {
    await says('mika', 'skipping meals lately')
    expect(newest('liv')).toContain('skipping meals')
    expect(all('mika')).toContain('A human will contact you')
    for (const id of ['iben', 'ravi', 'noor', 'sunniva']) expect(all(id)).not.toContain('skipping meals')
  })

  test('anything else reaches the therapist as a note, without ringing, and the answer says just that', async () => {
    const words = 'thanks, see you on thursday zebra'
    await says('mika', words)
    const answer = newest('mika')
    expect(answer).toContain('Your therapist gets a note')
    expect(answer).toContain('Nobody is being called')
    expect(answer).toContain('112')
    expect(answer).toContain('"action_id":"open-check-in"')
    expect(newest('iben')).toContain('zebra')
    expect((await chart()).escalations).toHaveLength(0)
    for (const id of ['ravi', 'liv', 'noor', 'sunniva']) expect(all(id)).not.toContain('zebra')
  })

  test('a file without words is answered: nobody has seen it', async () => {
    await clinic.workspace.event('message', {
      channel_type: 'im',
      channel: 'D1',
      user: 'U1MIKA',
      subtype: 'file_share',
      text: '',
      ts: '1773640000.000200',
    })
    await clinic.settle()
    expect(newest('mika')).toContain('passed on to nobody')
  })

  test('after the check-in the answer does not offer it again', async () => {
    await midday()
    await says('mika', 'thanks')
    expect(newest('mika')).toContain('You have checked in today')
    expect(newest('mika')).not.toContain('open-check-in')
  })

  test('a message of forty thousand characters is heard to its end', async () => {
    await says('mika', `${'lovely weather today. '.repeat(1700)}I collapsed after the run.`)
    const [typed] = await typedIn()
    expect(typed?.kind === 'typed-message' && typed.note).toBe('I collapsed after the run.')
    expect(newest('iben')).toContain('I collapsed after the run.')
  })

  test('what the platform escapes is read as it was typed, and mentions nobody', async () => {
    await says('mika', 'chest pain & <!channel> <b>')
    const [typed] = await typedIn()
    expect(typed?.kind === 'typed-message' && typed.note).toBe('chest pain & <!channel> <b>')
    const quoted = clinic
      .as('iben')
      .messages()
      .at(-1)
      ?.blocks?.find((block) => JSON.stringify(block).includes('<!channel>'))
    expect((quoted as { text?: { type?: string } } | undefined)?.text?.type).toBe('plain_text')
  })
})

describe('what comes as a message and is none', () => {
  const event = (fields: object) =>
    clinic.workspace.event('message', {
      channel_type: 'im',
      channel: 'D1',
      user: 'U1MIKA',
      text: 'chest pain',
      ts: '1773640000.000100',
      ...fields,
    })
  for (const [what, fields] of [
    ['an edit', { subtype: 'message_changed', message: { text: 'chest pain', user: 'U1MIKA' } }],
    ['a deletion', { subtype: 'message_deleted', previous_message: { text: 'chest pain' } }],
    ['a bot', { bot_id: 'B7OTHER' }],
    ['a channel', { channel_type: 'channel' }],
  ] as const)
    test(`${what} is left alone`, async () => {
      const before = clinic.as('mika').messages().length
      expect((await event(fields)).acknowledged).toBe(true)
      await clinic.settle()
      expect(await typedIn()).toHaveLength(0)
      expect(clinic.as('mika').messages()).toHaveLength(before)
    })

  test('delivered twice it is one entry, one call and one answer', async () => {
    await event({})
    await clinic.settle()
    const length = (await chart()).entries.length
    await event({})
    await clinic.settle()
    expect((await chart()).entries).toHaveLength(length)
    expect((await typedIn()).map(({ id }) => id)).toEqual(['typed-message/mika/1773640000.000100'])
  })

  test('nonsense in its fields is acknowledged and does nothing', async () => {
    for (const fields of [{ user: 7 }, { ts: null }, { text: { a: 1 } }, { ts: 'x'.repeat(500) }])
      expect((await event(fields)).acknowledged).toBe(true)
    await clinic.settle()
  })
})

describe('when it cannot be kept', () => {
  test('the delivery is not acknowledged, the athlete is told to ring, and the next delivery is kept', async () => {
    const { store } = clinic.bot.desk
    const commit = store.commit.bind(store)
    store.commit = async () => {
      throw new StoreClosed('The disk is full.')
    }
    const outcome = await clinic.as('mika').say('chest pain')
    expect(outcome.complaint ?? 'none').not.toBe('')
    await clinic.settle()
    expect(await typedIn()).toHaveLength(0)
    expect(clinic.as('mika').messages().at(-1)?.text).toContain(
      'Your message was not read. Ring +351 210 000 000',
    )
    store.commit = commit
    clinic.clock.pushBy({ minutes: 1 })
    await clinic.settle()
    expect(await typedIn()).toHaveLength(1)
    expect(newest('iben')).toContain('Emergency call')
  }, 20_000)
})

describe('everybody else', () => {
  test('is told which commands there are, and that nothing was passed on', async () => {
    await says('iben', 'can mika run today? chest pain?')
    expect(clinic.as('iben').messages().at(-1)?.text).toContain('What I answer: /chart, /enrol, /cover, /why')
    await says('noor', 'who runs?')
    expect(clinic.as('noor').messages().at(-1)?.text).toContain('/cleared')
    await says('sunniva', 'hello')
    expect(clinic.as('sunniva').messages().at(-1)?.text).toContain('/cover')
    expect((await chart()).escalations).toHaveLength(0)
  })

  test('whom the clinic does not know is told whom to ask', async () => {
    await clinic.workspace.as('U9NOBODY').say('chest pain')
    await clinic.settle()
    expect(clinic.workspace.as('U9NOBODY').messages().at(-1)?.text).toContain('ask the clinic lead')
  })

  test('an athlete who is not enrolled hears that nobody has read it', async () => {
    await says('adaeze', 'chest pain')
    expect(clinic.as('adaeze').messages().at(-1)?.text).toContain('nobody has read this')
    expect(clinic.as('adaeze').messages().at(-1)?.text).toContain('112')
  })
})
