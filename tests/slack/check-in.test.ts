import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { type ClinicAtWork, openClinic } from './clinic.ts'

let clinic: ClinicAtWork
beforeEach(async () => {
  clinic = await openClinic(['mika'])
})
afterEach(() => clinic.close())

/** Taps on a phone: a menu is opened and then chosen from, everything else is one tap. Typing is counted apart. */
function countTaps() {
  const taps = { taps: 0, typed: 0 }
  const mika = clinic.as('mika')
  const costs: Record<string, number> = { static_select: 2, radio_buttons: 1, checkboxes: 1 }
  const pick = (field: string, answer: string | readonly string[]) => {
    const block = mika.modal()?.blocks.find((one) => one.block_id === field)
    const type = (block as { element?: { type?: string } } | undefined)?.element?.type ?? ''
    if (!(type in costs)) taps.typed += 1
    taps.taps += costs[type] ?? 1
    mika.fill(field, answer)
  }
  return { taps, pick, mika }
}

async function openFromPrompt(mika: ReturnType<typeof countTaps>['mika']) {
  const prompt = mika.messages().findLast((one) => JSON.stringify(one.blocks).includes('open-check-in'))
  if (!prompt) throw new Error('no prompt')
  await mika.press({ channel: prompt.channel, ts: prompt.ts }, 'open-check-in')
  await clinic.settle()
}

describe('an ordinary morning', () => {
  test('takes at most eight taps and no typing, from the prompt to the plan', async () => {
    const { taps, pick, mika } = countTaps()
    await openFromPrompt(mika)
    taps.taps += 1
    pick('noPain', ['yes'])
    pick('swelling', 'no')
    pick('signs-always', ['none'])
    pick('signs-bone', ['none'])
    const sent = await mika.submit()
    taps.taps += 1
    expect(sent.errors).toBeUndefined()
    expect(taps).toEqual({ taps: 6, typed: 0 })
    await clinic.settle()
    const checkIn = (await clinic.bot.desk.charts.read('mika')).checkIns.at(-1)
    expect(checkIn).toMatchObject({ worstPain: 0, morningPain: 0, swelling: 'no' })
    expect(JSON.stringify(mika.messages().at(-1)?.blocks)).toContain('Today: run')
  })

  test('sleep, fatigue, stress and soreness may be left open, and what is left open is unknown', async () => {
    const { pick, mika } = countTaps()
    await openFromPrompt(mika)
    for (const [field, answer] of [
      ['noPain', ['yes']],
      ['swelling', 'no'],
      ['signs-always', ['none']],
      ['signs-bone', ['none']],
      ['sleep', '2'],
      ['soreness', '6'],
    ] as const)
      pick(field, answer)
    expect(
      mika
        .modal()
        ?.blocks.slice(-4)
        .map(({ block_id }) => block_id),
    ).toEqual(['sleep', 'fatigue', 'stress', 'soreness'])
    expect((await mika.submit()).errors).toBeUndefined()
    const checkIn = (await clinic.bot.desk.charts.read('mika')).checkIns.at(-1)
    expect(checkIn).toMatchObject({ sleep: 2, soreness: 6 })
    expect(Object.keys(checkIn ?? {})).not.toContain('fatigue')
    expect(Object.keys(checkIn ?? {})).not.toContain('stress')
  })

  test('no answer about pain is refused at its field: silence is never read as none', async () => {
    const { pick, mika } = countTaps()
    await openFromPrompt(mika)
    pick('swelling', 'no')
    pick('signs-always', ['none'])
    pick('signs-bone', ['none'])
    expect((await mika.submit()).errors?.worstPain).toContain('How much was it')
    pick('worstPain', '2')
    expect((await mika.submit()).errors?.morningPain).toContain('How much was it')
    pick('noPain', ['yes'])
    expect((await mika.submit()).errors?.worstPain).toContain('Either no pain')
    pick('noPain', [])
    pick('morningPain', '1')
    expect((await mika.submit()).errors).toBeUndefined()
    expect((await clinic.bot.desk.charts.read('mika')).checkIns.at(-1)).toMatchObject({
      worstPain: 2,
      morningPain: 1,
    })
  })
})

test('the card of today reads at 320 px: no line of the bouts is longer than forty characters', async () => {
  const { pick, mika } = countTaps()
  await openFromPrompt(mika)
  pick('noPain', ['yes'])
  pick('swelling', 'no')
  pick('signs-always', ['none'])
  pick('signs-bone', ['none'])
  await mika.submit()
  await clinic.settle()
  const blocks = mika.messages().at(-1)?.blocks as readonly { fields?: { text: string }[] }[]
  const cells = blocks[1]?.fields?.map(({ text }) => text) ?? []
  expect(cells.join()).toContain('*Run*')
  expect(cells.join()).toContain('% of body weight')
  const lines = cells.flatMap((cell) => cell.split('\n'))
  expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(40)
})

test('a run is logged without typing when it went as prescribed, and "I did not run" is one press', async () => {
  const { pick, mika } = countTaps()
  await openFromPrompt(mika)
  for (const [field, answer] of [
    ['noPain', ['yes']],
    ['swelling', 'no'],
    ['signs-always', ['none']],
    ['signs-bone', ['none']],
  ] as const)
    pick(field, answer)
  await mika.submit()
  await clinic.settle()
  const card = mika.messages().at(-1)
  const place = { channel: card?.channel ?? '', ts: card?.ts ?? '' }
  await mika.press(place, 'open-session')
  await clinic.settle()
  const { taps, pick: tap } = countTaps()
  for (const field of ['painBefore', 'painDuring', 'painAfter', 'rpe']) tap(field, '0')
  expect((await mika.submit()).errors).toBeUndefined()
  expect(taps.typed).toBe(0)
  const session = (await clinic.bot.desk.charts.read('mika')).sessions.at(-1)
  expect(session?.bouts[0]?.bodyWeightPct).toBeGreaterThan(0)
  await mika.press(place, 'skip-run')
  await clinic.settle()
  expect(JSON.stringify(mika.messages().at(-1)), 'it is logged already').toContain('logged already')
})
