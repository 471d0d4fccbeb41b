import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { amendRequests } from '../../src/rules/amend-request.ts'
import { type ClinicAtWork, fillMorning, openClinic } from './clinic.ts'

let clinic: ClinicAtWork
beforeEach(async () => {
  clinic = await openClinic(['mika'])
})
afterEach(() => clinic.close())

const newest = (who: string) => JSON.stringify(clinic.as(who).messages().at(-1)?.blocks ?? '')
const all = (who: string) => JSON.stringify(clinic.as(who).messages())
const homeOf = async (who: string) => (await clinic.as(who).openHome())?.lines.join('\n') ?? ''
async function round(at: string) {
  clinic.clock.pushTo(at)
  await clinic.bot.round()
  await clinic.settle()
}

/** Opens the form from Home, asks, and answers with what the form said. */
async function asks(words: string, entry?: string) {
  const mika = clinic.as('mika')
  await mika.openHome()
  await mika.press({ home: true }, 'open-ask-correction')
  await clinic.settle()
  const shown = mika.modal()?.lines.join('\n') ?? ''
  if (entry) mika.fill('entry', entry)
  mika.fill('words', words)
  expect((await mika.submit()).errors).toBeUndefined()
  await clinic.settle()
  return shown
}

describe('an athlete asks for a correction', () => {
  test('from Home: the form says by when it is answered, the therapist reads the words, Home keeps the date', async () => {
    await (await fillMorning(clinic, 'mika', { worstPain: '3', morningPain: '1' })).submit()
    await clinic.settle()
    const shown = await asks('It was 2, not 3. <!channel>', 'check-in/mika/2026-03-16')
    expect(shown).toContain('2026-05-15')
    expect(shown).toContain('2026-03-16 check in, Mika Oddvar')
    expect(newest('iben')).toContain('It was 2, not 3. &lt;!channel&gt;')
    expect(newest('iben')).toContain('Please answer by 2026-05-15')
    expect(newest('mika')).toContain('must answer by 2026-05-15')
    expect(await homeOf('mika')).toContain('an answer is due by 2026-05-15')
    const asked = amendRequests(await clinic.bot.desk.charts.read('mika')).map((one) => one.asked)
    expect(asked).toMatchObject([{ author: 'mika', entry: 'check-in/mika/2026-03-16' }])
    for (const id of ['noor', 'sunniva', 'liv']) expect(all(id)).not.toContain('It was 2')
  })

  test('of something that is missing, without naming an entry; empty words are refused at the field', async () => {
    const mika = clinic.as('mika')
    await mika.openHome()
    await mika.press({ home: true }, 'open-ask-correction')
    await clinic.settle()
    expect((await mika.submit()).errors?.words).toBeDefined()
    mika.fill('words', 'My fall in January is not in it.')
    expect((await mika.submit()).closed).toBe(true)
    await clinic.settle()
    const [asked] = amendRequests(await clinic.bot.desk.charts.read('mika'))
    expect(asked?.asked).toMatchObject({ words: 'My fall in January is not in it.' })
    expect(asked?.asked.entry).toBeUndefined()
  })

  test('a refusal is told with its ground and can be disagreed with once', async () => {
    await asks('It was 2.')
    const request = 'amendment-request/mika/1'
    await clinic.submit('iben', {
      kind: 'amendment-request-answered',
      athlete: 'mika',
      request,
      outcome: 'denied',
      ground: 'accurate and complete',
      words: 'The answer was given as it stands.',
    })
    await clinic.bot.round()
    await clinic.settle()
    const told = clinic.as('mika').messages().at(-1)
    expect(JSON.stringify(told?.blocks)).toContain('not changed (accurate and complete)')
    const mika = clinic.as('mika')
    await mika.press(told ?? { home: true }, 'open-disagree')
    await clinic.settle()
    mika.fill('words', 'I still say 2.')
    expect((await mika.submit()).closed).toBe(true)
    await clinic.settle()
    expect(newest('iben')).toContain('I still say 2.')
    expect(await homeOf('mika')).toContain('your disagreement stands with it')
    await mika.press(told ?? { home: true }, 'open-disagree')
    await clinic.settle()
    mika.fill('words', 'Again.')
    expect((await mika.submit()).errors?.words).toContain('stands already')
  })
})

describe('the date of an answer', () => {
  test('comes near: the therapist is reminded once, fourteen days before; after it the clinic lead hears too', async () => {
    await asks('It was 2, zebra.')
    const reminded = () =>
      ['iben', 'sunniva'].map(
        (who) =>
          all(who).split('An answer was due').length + all(who).split('and an answer is due').length - 2,
      )
    await round('2026-04-30T12:00:00.000Z')
    expect(reminded()).toEqual([0, 0])
    await round('2026-05-01T12:00:00.000Z')
    expect(reminded()).toEqual([1, 0])
    await round('2026-05-15T12:00:00.000Z')
    expect(reminded()).toEqual([1, 0])
    await round('2026-05-16T12:00:00.000Z')
    expect(reminded()).toEqual([2, 1])
    await round('2026-05-17T12:00:00.000Z')
    expect(reminded(), 'once each').toEqual([2, 1])
    expect(all('sunniva')).toContain('An answer was due by 2026-05-15')
    expect(all('sunniva'), 'what is asked is not for the lead').not.toContain('zebra')
    expect(all('noor')).not.toContain('correction')
  })

  test('that was met is not reminded of, and an extension moves the reminder', async () => {
    await asks('It was 2.')
    const request = 'amendment-request/mika/1'
    const extended = { kind: 'amendment-request-extended', athlete: 'mika', request, words: 'Away.' }
    await clinic.submit('iben', extended)
    await round('2026-05-16T12:00:00.000Z')
    expect(all('iben')).not.toContain('an answer is due by 2026-05-15')
    await round('2026-05-31T12:00:00.000Z')
    expect(all('iben')).toContain('an answer is due by 2026-06-14')
    const answered = { kind: 'amendment-request-answered', athlete: 'mika', request, words: 'So.' }
    await clinic.submit('iben', { ...answered, outcome: 'appended' })
    await round('2026-06-20T12:00:00.000Z')
    expect(all('iben')).not.toContain('An answer was due')
  })
})
