import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { type ClinicAtWork, openClinic } from './clinic.ts'

let clinic: ClinicAtWork
beforeAll(async () => {
  clinic = await openClinic(['mika'])
})
afterAll(() => clinic.close())

const chartOf = (athlete: string) => clinic.bot.desk.charts.read(athlete)
const account = { adaeze: 'U2ADAEZE', noor: 'U4NOOR' }

describe('a therapist enrols an athlete in three short forms', () => {
  test('each form is saved when it is sent, the next stands in its place', async () => {
    const iben = clinic.as('iben')
    await iben.command('/enrol')
    await clinic.settle()
    iben.fill('athlete', account.adaeze)
    iben.fill('timeZone', 'Europe/Nowhere')
    iben.fill('coaches', [account.noor])
    iben.fill('consent', 'yes')
    iben.fill('precautions', ['none'])
    const wrong = await iben.submit()
    expect(wrong.errors?.timeZone).toContain('IANA')
    expect(iben.modal()?.values.consent, 'what was typed stays').toBe('yes')
    iben.fill('timeZone', '')
    expect((await iben.submit()).modal?.title).toBe('Enrol: 2 of 3')
    expect((await chartOf('adaeze')).enrolment).toMatchObject({
      therapist: 'iben',
      coaches: ['noor'],
      timeZone: 'Europe/Lisbon',
      promptAt: '06:30',
    })
  })

  test('left in the middle, /enrol goes on where it stopped', async () => {
    const iben = clinic.as('iben')
    await iben.close(true)
    await iben.command('/enrol', 'adaeze')
    await clinic.settle()
    expect(iben.modal()?.title).toBe('Enrol: 2 of 3')
    iben.fill('tissue', 'bone')
    iben.fill('site', 'distal medial tibia')
    iben.fill('side', 'left')
    iben.fill('onsetDay', '2026-02-01')
    expect((await iben.submit()).errors?.known).toContain('Choose a diagnosis')
    iben.fill('known', 'tibial stress reaction')
    expect((await iben.submit()).modal?.title).toBe('Enrol: 3 of 3')
  })

  test('plan and first clearance are signed together', async () => {
    const iben = clinic.as('iben')
    iben.fill('ladder', 'tibial-stress-reaction-lbpp@1')
    iben.fill('bodyWeightPct', '80')
    iben.fill('speedKmh', '12')
    iben.fill('runMinutes', '20')
    iben.fill('until', '2026-03-01')
    expect((await iben.submit()).errors?.until).toContain('over already')
    iben.fill('until', '2026-04-12')
    const sent = await iben.submit()
    expect(sent.modal?.lines.join('\n')).toContain('is not signed')
    iben.fill('confirm', ['yes'])
    await iben.submit()
    await clinic.settle()
    const chart = await chartOf('adaeze')
    expect(chart.plan?.ladder.id).toBe('tibial-stress-reaction-lbpp')
    expect(chart.clearance?.state).toBe('unloaded running')
  })

  test('whoever is not known here is named at the field', async () => {
    const iben = clinic.as('iben')
    await iben.command('/enrol')
    await clinic.settle()
    iben.fill('athlete', 'U9NOBODY')
    iben.fill('consent', 'no')
    iben.fill('precautions', ['none'])
    expect((await iben.submit()).errors?.athlete).toContain('clinic lead adds people')
    iben.fill('athlete', account.adaeze)
    iben.fill('precautions', ['none', 'clot'])
    expect((await iben.submit()).errors?.precautions).toContain('either')
    await iben.close(true)
  })

  test.each(['mika', 'noor', 'sunniva'])('%s is told whom to ask', async (id) => {
    const outcome = await clinic.as(id).command('/enrol')
    expect(outcome.reply?.text).toContain('the therapist')
  })
})

describe('a therapist works with the chart', () => {
  const openMika = async () => {
    const iben = clinic.as('iben')
    await iben.command('/chart', 'Mika Oddvar')
    await clinic.settle()
    return iben
  }

  test('the caseload names everybody with what is most urgent', async () => {
    const iben = clinic.as('iben')
    clinic.clock.pushTo('2026-03-16T07:15:00.000Z')
    await iben.command('/chart')
    await clinic.settle()
    const lines = iben.modal()?.lines.join('\n') ?? ''
    expect(lines).toContain('Mika Oddvar')
    expect(lines).toContain('no answer yet this morning')
    expect(lines.indexOf('Mika Oddvar')).toBeLessThan(lines.indexOf('Adaeze Quill'))
    await iben.press({ modal: true }, 'open-chart', JSON.stringify({ athlete: 'mika' }))
    await clinic.settle()
    expect(iben.modal()?.title).toBe('Chart')
    expect(iben.modal()?.lines.join('\n')).toContain('tibial stress reaction')
    await iben.close(true)
  })

  test('a hold is written with its reason and the chart under the form shows it', async () => {
    const iben = await openMika()
    await iben.press({ modal: true }, 'open-hold')
    await clinic.settle()
    iben.fill('words', 'Sore on the stairs')
    expect((await iben.submit()).errors).toBeUndefined()
    await clinic.settle()
    expect(iben.modal()?.lines.join('\n')).toContain('Sore on the stairs')
    await iben.press({ modal: true }, 'open-lift')
    await clinic.settle()
    iben.fill('words', 'Settled, seen in person')
    await iben.submit()
    await clinic.settle()
    expect((await chartOf('mika')).holds).toEqual([])
    await iben.close(true)
  })

  test('a higher ceiling is confirmed in words first, and "no" writes nothing', async () => {
    const iben = await openMika()
    await iben.press({ modal: true }, 'open-clearance')
    await clinic.settle()
    iben.fill('state', 'return to sport')
    iben.fill('speedKmh', '18')
    const length = (await chartOf('mika')).entries.length
    const asked = await iben.submit()
    const words = asked.modal?.lines.join('\n') ?? ''
    expect(words).toContain('rises from "unloaded running" to "return to sport"')
    expect(words).toContain('for speed rises from 13 to 18 km/h')
    expect(words).toContain('is not signed')
    await iben.close()
    expect((await chartOf('mika')).entries.length).toBe(length)
    expect(iben.modal()?.values.state, 'what was typed stays').toBe('return to sport')
    await iben.submit()
    iben.fill('confirm', ['yes'])
    await iben.submit()
    await clinic.settle()
    expect((await chartOf('mika')).clearance?.state).toBe('return to sport')
    expect(iben.modal()).toBeUndefined()
  })

  test('a lower one needs no question', async () => {
    const iben = await openMika()
    await iben.press({ modal: true }, 'open-clearance')
    await clinic.settle()
    iben.fill('state', 'unloaded running')
    iben.fill('speedKmh', '10')
    await iben.submit()
    await clinic.settle()
    expect((await chartOf('mika')).clearance?.state).toBe('unloaded running')
    await iben.close(true)
  })

  test('a measure out of its range is refused at its field', async () => {
    const iben = await openMika()
    await iben.press({ modal: true }, 'open-measure')
    await clinic.settle()
    iben.fill('measure', 'pain')
    iben.fill('value', '11')
    expect((await iben.submit()).errors?.value).toContain('0 to 10')
    iben.fill('value', '2')
    expect((await iben.submit()).errors).toBeUndefined()
    await clinic.settle()
    await iben.close(true)
  })

  test('the same form sent twice is written once', async () => {
    const measure = { kind: 'measure', athlete: 'mika', measure: 'pain', day: '2026-03-16', value: 3 }
    await clinic.submit('iben', measure)
    const length = (await chartOf('mika')).entries.length
    await clinic.submit('iben', measure)
    expect((await chartOf('mika')).entries.length).toBe(length)
  })

  test('an entry is struck out with a reason and stays legible', async () => {
    const iben = await openMika()
    await iben.press({ modal: true }, 'open-strike')
    await clinic.settle()
    const measure = (await chartOf('mika')).measures.at(-1)
    iben.fill('strikes', measure?.id ?? '')
    iben.fill('words', 'Wrong athlete')
    await iben.submit()
    await clinic.settle()
    const chart = await chartOf('mika')
    expect(chart.measures.map((one) => one.id)).not.toContain(measure?.id)
    expect(chart.ids.has(measure?.id ?? '')).toBe(true)
    await iben.close(true)
  })

  test('criteria that are not met are signed only with a reason and a confirmation', async () => {
    const iben = await openMika()
    const set = clinic.bot.desk.library.criteria('start-running-after-bone-stress-injury')
    const value = JSON.stringify({ athlete: 'mika', set: `${set?.id}@${set?.version}` })
    await iben.press({ modal: true }, 'open-criteria', value)
    await clinic.settle()
    expect(iben.modal()?.lines.join('\n')).toMatch(/missing/)
    expect((await iben.submit()).errors?.words).toContain('write the reason')
    iben.fill('words', 'Seen by the surgeon today')
    expect((await iben.submit()).modal?.title).toBe('Please confirm')
    iben.fill('confirm', ['yes'])
    await iben.submit()
    await clinic.settle()
    expect((await chartOf('mika')).criteriaSigned.at(-1)).toMatchObject({ against: true })
  })

  test('a therapist who neither treats nor covers is told who does', async () => {
    const outcome = await clinic.as('noor').command('/chart', 'mika')
    expect(outcome.reply?.text).toContain('the therapist')
  })

  test('why says findings, sources and the rung to the athlete and to the therapist, to nobody else', async () => {
    expect((await clinic.as('noor').command('/why', 'mika')).reply?.text).toContain('Please ask them')
    const words = JSON.stringify((await clinic.as('iben').command('/why', 'mika')).reply)
    expect(words).toMatch(/Nothing has been decided|hold|Rung/)
  })

  test('cover says who is called, in order', async () => {
    const words = JSON.stringify((await clinic.as('iben').command('/cover')).reply?.blocks)
    expect(words).toContain('Iben Marlow, then Ravi Thornby, then Sunniva Dray')
    expect((await clinic.as('mika').command('/cover')).reply?.text).toContain('Please ask them')
  })
})
