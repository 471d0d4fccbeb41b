import { PassThrough } from 'node:stream'
import { pino } from 'pino'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { cast, enrolment, player } from '../../src/rehearsal/cast.ts'
import { type ClinicAtWork, fillMorning, openClinic } from './clinic.ts'

/** Words that no lock screen, no other app and no log may show; and marks that only the athlete's note has. */
const medical =
  /\b(pain|sore|swell|swollen|injur|diagnos|tibia|shin|bone|stress|knee|chest|fever|wound|numb|rung|ladder|hold|flag|emergency|urgent|treadmill|body weight|surgery|mood|hopeless)/i
const episode = { site: 'distal medial tibia', onsetDay: '2026-02-12', clearedUntil: '2026-04-12' }
const secret = 'zebra-crossing'
const nasty = `<!channel> <!here> <@U4NOOR> <#C1COACHES> &lt;!channel&gt; *bold* ${secret} مرحبا بالعالم 🏃🏽‍♀️ `

let clinic: ClinicAtWork
const logged: string[] = []

beforeAll(async () => {
  const sink = new PassThrough()
  sink.on('data', (line) => logged.push(String(line)))
  clinic = await openClinic(['mika'], 'http', pino({ level: 'trace' }, sink))
  await liveThroughEverything()
})
afterAll(() => clinic.close())

/** Every kind of notice that the rules can produce, once. */
async function liveThroughEverything() {
  const [enrolled] = enrolment(player('mika'), { ...episode, side: 'left' })
  await clinic.submit('iben', { ...enrolled, coaches: ['noor', 'tove'] })
  const pushTo = async (at: string) => {
    clinic.clock.pushTo(at)
    await clinic.bot.round()
    await clinic.settle()
  }
  await pushTo('2026-03-16T08:00:00.000Z') // the reminder
  await pushTo('2026-03-16T08:31:00.000Z') // the list
  await (
    await fillMorning(clinic, 'mika', { worstPain: '1', note: `${nasty}${'x'.repeat(3000 - nasty.length)}` })
  ).submit()
  await clinic.settle()
  const mika = clinic.as('mika')
  await mika.command('/session')
  await clinic.settle()
  for (const field of ['painBefore', 'painDuring', 'painAfter', 'rpe']) mika.fill(field, '7')
  mika.fill('note', nasty)
  await mika.submit()
  await clinic.settle()
  await pushTo('2026-03-17T06:31:00.000Z')
  await (await fillMorning(clinic, 'mika', { 'signs-always': ['chest-pain'], note: nasty })).submit()
  await clinic.settle()
  await pushTo('2026-03-17T06:45:00.000Z') // nobody answered: the next is called
  const call = clinic.as('iben').messages().at(-1)
  const place = { channel: call?.channel ?? '', ts: call?.ts ?? '' }
  await clinic.as('iben').press(place, 'acknowledge')
  await clinic.settle()
  await clinic.as('iben').press(place, 'open-close')
  await clinic.settle()
  const iben = clinic.as('iben')
  iben.fill('disposition', 'seen in person')
  iben.fill('words', nasty)
  iben.fill('hold', 'lift')
  await iben.submit()
  await clinic.settle()
  await pushTo('2026-03-18T06:31:00.000Z')
  await (await fillMorning(clinic, 'mika', { note: `I feel hopeless and cannot cope ${secret}` })).submit()
  await clinic.settle()
  await pushTo('2026-03-18T06:40:00.000Z')
  await mika.openHome()
  await mika.press({ home: true }, 'open-ask-correction')
  await clinic.settle()
  mika.fill('words', `my tibia is wrong ${nasty}`)
  await mika.submit()
  await clinic.settle()
  await mika.press({ home: true }, 'open-exercise')
  await clinic.settle()
  mika.fill('asWritten', ['dead-bug'])
  mika.fill('note', nasty)
  await mika.submit()
  await clinic.settle()
  for (const text of [`see you later ${secret}`, `calf tightness only when running ${nasty}`]) {
    await mika.say(text)
    await clinic.settle()
  }
}

type Sent = { readonly text?: string; readonly blocks?: unknown; readonly metadata?: unknown }
const sent = (): Sent[] =>
  clinic.workspace.calls
    .filter((call) => call.method === 'chat.postMessage' || call.method === 'chat.update')
    .map((call) => call.arguments as Sent)
const parsed = (value: unknown): unknown => (typeof value === 'string' ? JSON.parse(value) : value)

describe('what others can see of a message says nothing medical and names nobody', () => {
  test('every kind of notice was sent, each under its one neutral text', () => {
    expect(new Set(sent().map((one) => one.text))).toEqual(
      new Set([
        'Good morning. Your check-in is ready.', // prompt
        'Your check-in is still open.', // reminder
        'Your plan for today is here.', // prescription
        'Please read this message now.', // stop
        'Please read this message.', // support
        'An answer to your message.', // reply
        'Your care team has written something for you.', // told
        'You are being called. Please open this message now.', // call
        'A call has moved on.', // call-news to staff
        'There is news about your check-in.', // call-news to the athlete
        'A note about an athlete of yours.', // note
        'A clearance has changed.', // cleared
        'The list for today is here.', // list
      ]),
    )
  })

  test('no notification text has a medical word or a name in it', () => {
    for (const { text = '' } of sent()) {
      expect(text).not.toMatch(medical)
      for (const { name, id } of cast) {
        for (const part of [...name.split(' '), id]) expect(text).not.toContain(part)
      }
    }
  })

  test('metadata is one opaque key and nothing else', () => {
    expect(sent().length).toBeGreaterThan(15)
    for (const { metadata } of sent())
      expect(parsed(metadata)).toEqual({
        event_type: 'sanderling_notice',
        event_payload: { key: expect.stringMatching(/^[\w-]{22}$/) },
      })
  })

  test('log lines carry ids and counts: no answer, no note, no name', () => {
    const text = logged.join('')
    expect(text).not.toContain(secret)
    for (const { name } of cast) expect(text).not.toContain(name)
    const words = logged.map((line) => JSON.parse(line).msg ?? '').join(' ')
    expect(words).not.toMatch(medical)
  })
})

describe('what a coach can ever get', () => {
  test('in messages, in the channel, on demand and on the Home: nothing medical, nothing that was said', async () => {
    const noor = clinic.as('noor')
    const channel = noor.messages('C1COACHES')
    const direct = noor.messages()
    expect(channel.length).toBeGreaterThan(0)
    expect(direct.length).toBeGreaterThan(0)
    const answers = []
    for (const command of [
      '/today',
      '/cleared',
      '/chart',
      '/why',
      '/enrol',
      '/cover',
      '/session',
      '/checkin',
    ])
      answers.push((await noor.command(command, command === '/why' ? 'mika' : '')).reply)
    const home = await noor.openHome()
    const all = JSON.stringify([channel, direct, answers, home?.lines])
    expect(all).toContain('Mika Oddvar')
    expect(all).not.toContain(secret)
    // "body weight" is the load that a coach is meant to read, "unloaded running" the state.
    const words = all.replaceAll('body weight', '').replaceAll(/open-[a-z-]+/g, '')
    expect(words).not.toMatch(
      /\b(pain|sore|swell|swollen|injur|diagnos|tibia|shin|bone|stress|knee|chest|rung|hold|flag|hopeless|mood)/i,
    )
  })
})

test('a strength coach logs exercises and reads nothing of the injury, the answers or what was said', async () => {
  const tove = clinic.as('tove')
  const shown: unknown[] = [tove.messages()]
  for (const command of ['/today', '/cleared', '/chart', '/why', '/enrol', '/cover', '/checkin'])
    shown.push((await tove.command(command, command === '/why' ? 'mika' : '')).reply)
  await tove.command('/session')
  await clinic.settle()
  shown.push(tove.modal()?.lines)
  await tove.press({ modal: true }, 'open-exercise')
  await clinic.settle()
  expect(tove.modal()?.title).toBe('Log exercises')
  shown.push(tove.modal()?.lines, tove.modal()?.privateMetadata, (await tove.openHome())?.lines)
  const all = JSON.stringify(shown)
  expect(all).toContain('Mika Oddvar')
  expect(all).not.toContain(secret)
  // The pain of an exercise is asked of whoever logs it: the question is theirs, no answer of anybody is shown.
  const words = all
    .replaceAll('body weight', '')
    .replaceAll(/open-[a-z-]+/g, '')
    .replaceAll(/pain \(0-10\)|without pain|with pain|Knee tuck/g, '')
  expect(words).not.toMatch(
    /\b(pain|sore|swell|swollen|injur|diagnos|tibia|shin|bone|stress|knee|chest|rung|on hold|flag|hopeless|mood)/i,
  )
  await tove.close(true)
})

describe("somebody's own words", () => {
  test('never stand in markup: they cannot mention a channel or a person', () => {
    const markup = sent().flatMap(({ blocks }) => markupIn(parsed(blocks)))
    expect(markup.length).toBeGreaterThan(50)
    for (const text of markup) expect(text).not.toMatch(/<[!@#]/)
  })

  test('emoji, right-to-left and three thousand characters arrive whole where they may be read', async () => {
    const read = JSON.stringify(clinic.as('iben').messages())
    expect(read).toContain(secret)
    expect(read).toContain('مرحبا بالعالم')
    expect(read).toContain('🏃🏽‍♀️')
    const checkIn = (await clinic.bot.desk.charts.read('mika')).checkIns[0]
    expect(checkIn?.note?.length).toBe(3000)
  })

  test('in confidence, only the licensed person reads them', () => {
    const words = 'I feel hopeless'
    expect(JSON.stringify(clinic.as('liv').messages())).toContain(words)
    for (const id of ['iben', 'ravi', 'noor', 'sunniva'])
      expect(JSON.stringify(clinic.as(id).messages())).not.toContain(words)
  })

  test('nor on the chart, in the weekly review, on the caseload or behind why', async () => {
    const iben = clinic.as('iben')
    await iben.command('/chart', 'mika')
    await clinic.settle()
    const chart = iben.modal()?.lines.join('\n') ?? ''
    expect(chart).toContain('Mika Oddvar')
    await iben.press({ modal: true }, 'open-review')
    await clinic.settle()
    const review = iben.modal()?.lines.join('\n') ?? ''
    expect(review).toContain('Weekly review')
    const why = JSON.stringify((await iben.command('/why', 'mika')).reply)
    for (const shown of [chart, review, why]) expect(shown).not.toMatch(/hopeless|mood|cope/i)
    await iben.close(true)
  })
})

function markupIn(part: unknown): string[] {
  if (Array.isArray(part)) return part.flatMap(markupIn)
  if (part === null || typeof part !== 'object') return []
  const { type, text } = part as { readonly type?: unknown; readonly text?: unknown }
  if (type === 'mrkdwn' && typeof text === 'string') return [text]
  return Object.values(part).flatMap(markupIn)
}
