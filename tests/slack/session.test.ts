import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { type ClinicAtWork, fillMorning, openClinic } from './clinic.ts'

let clinic: ClinicAtWork
beforeEach(async () => {
  clinic = await openClinic(['mika'])
  await (await fillMorning(clinic, 'mika')).submit()
  await clinic.settle()
})
afterEach(() => clinic.close())

const mika = () => clinic.as('mika')
const chart = () => clinic.bot.desk.charts.read('mika')
const pains = ['painBefore', 'painDuring', 'painAfter', 'rpe']
async function openForm() {
  await mika().command('/session')
  await clinic.settle()
  for (const field of pains) mika().fill(field, '1')
}
async function more() {
  await mika().press({ modal: true }, 'more-session')
  await clinic.settle()
}

describe('the log of a run', () => {
  test('is short until more is asked for, and then keeps what was typed', async () => {
    await openForm()
    expect(
      mika()
        .modal()
        ?.blocks.map(({ block_id }) => block_id),
    ).not.toContain('changeWhy')
    mika().fill('minutes', '4')
    mika().fill('note', 'the belt squeaked')
    await more()
    const { values } = mika().modal() ?? { values: {} }
    expect(values).toMatchObject({ minutes: '4', note: 'the belt squeaked' })
    expect(
      mika()
        .modal()
        ?.blocks.map(({ block_id }) => block_id),
    ).toContain('changeWhy')
    mika().fill('measuredBodyWeightPct', '52.5')
    expect((await mika().submit()).errors).toBeUndefined()
    const [session] = (await chart()).sessions
    expect(session?.bouts[0]).toMatchObject({ bodyWeightPct: 50, measuredBodyWeightPct: 52.5, minutes: 4 })
    expect(session?.changes).toBeUndefined()
  })

  test('less weight on pain is logged with its minute and counts as the dose done', async () => {
    await openForm()
    await more()
    const asked = (await chart()).prescriptions.at(-1)?.dose?.bouts.find(({ gait }) => gait === 'run')
    const minutes = (asked?.minutes?.low ?? 0) * (asked?.repeats.low ?? 0)
    expect(minutes).toBeGreaterThan(2)
    mika().fill('changeWhy', 'pain')
    expect((await mika().submit()).errors?.changeAtMinute).toContain('After how many minutes')
    mika().fill('changeAtMinute', '2')
    expect((await mika().submit()).errors?.changeStopped).toContain('What changed then')
    mika().fill('changePain', '3')
    mika().fill('changeBodyWeightPct', '40')
    expect((await mika().submit()).errors).toBeUndefined()
    const [session] = (await chart()).sessions
    expect(session?.changes).toEqual([{ atMinute: 2, why: 'pain', pain: 3, bodyWeightPct: 40 }])
    const ran = (bodyWeightPct: number) =>
      session?.bouts
        .filter((bout) => bout.bodyWeightPct === bodyWeightPct)
        .reduce((sum, bout) => sum + bout.minutes * bout.repeats, 0)
    expect([ran(50), ran(40)]).toEqual([2, minutes - 2])
  })

  test('a run that was stopped is logged as far as it went; stopped before it began, it was not run', async () => {
    await openForm()
    await more()
    mika().fill('changeWhy', 'breath')
    mika().fill('changeAtMinute', '0')
    mika().fill('changeStopped', ['stopped'])
    expect((await mika().submit()).errors?.changeAtMinute).toContain('I did not run')
    mika().fill('changeAtMinute', '1')
    expect((await mika().submit()).errors).toBeUndefined()
    const [session] = (await chart()).sessions
    expect(session?.bouts).toHaveLength(1)
    expect(session?.bouts[0]).toMatchObject({ minutes: 1, repeats: 1 })
  })

  test("yesterday's run that nobody logged comes first and is named by its day, then today's", async () => {
    clinic.clock.pushTo('2026-03-17T07:00:00.000Z')
    await clinic.bot.round()
    await openForm()
    expect(mika().modal()?.lines.join('\n')).toContain('The run of 2026-03-16')
    expect((await mika().submit()).closed, 'nothing was prescribed today').toBe(true)
    expect((await chart()).sessions.map(({ day }) => day)).toEqual(['2026-03-16'])
    await mika().command('/session')
    await clinic.settle()
    expect(mika().modal()?.lines.join('\n')).toContain('The run of 2026-03-17')
  })
})
