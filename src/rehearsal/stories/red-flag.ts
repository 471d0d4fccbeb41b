import { instantAt } from '../../chart/day.ts'
import { checksIn, closesCall, newest, presses } from '../acts.ts'
import { cast, coachesChannel, enrolment, player } from '../cast.ts'
import type { Stage } from '../stage.ts'

const zone = 'Europe/Lisbon'
const dayOne = '2026-03-16'
const at = (time: string, day = dayOne) => instantAt(day, time, zone)

/**
 * One urgent call that two people do not answer. The bot is stopped and started in between; the third acknowledges,
 * hands over to a colleague, the colleague closes, and a named therapist lifts the hold.
 */
export async function redFlag(stage: Stage): Promise<void> {
  await setTheScene(stage)
  await theFlag(stage)
  await twoSilentPeople(stage)
  await acknowledgedAndHandedOver(stage)
  await closedAndLifted(stage)
}

async function setTheScene(stage: Stage): Promise<void> {
  stage.say('\n=== The clinic: Iben treats Mika, Ravi covers, Sunniva leads, Liv is the licensed person')
  for (const { id, name, role, account, timeZone } of cast)
    await stage.bot.submit('sunniva', {
      kind: 'person',
      person: {
        id,
        name,
        roles: [role],
        chatUser: account,
        timeZone,
        active: true,
        specialities: id === 'ravi' ? ['bone stress'] : [],
      },
    })
  await stage.bot.submit('sunniva', { kind: 'place', place: 'coaches', channel: coachesChannel.id })
  const episode = {
    site: 'distal medial tibia',
    side: 'left',
    onsetDay: '2026-02-12',
    clearedUntil: '2026-04-12',
  } as const
  for (const submission of enrolment(player('mika'), episode)) await stage.bot.submit('iben', submission)
  await stage.advanceTo(at('06:30'))
}

async function theFlag(stage: Stage): Promise<void> {
  stage.say(`\n=== ${dayOne}, half past six: Mika checks in`)
  await checksIn(stage, 'mika', {
    worstPain: 2,
    morningPain: 1,
    signs: { bone: ['bone-pain-at-night', 'sore-spot'] },
    note: 'The shin woke me up twice.',
  })
  stage.expect(
    newest(stage, 'mika', 'No running today') !== undefined,
    'Mika is told to stop, and what to do',
  )
  stage.expect(newest(stage, 'iben', 'Urgent call') !== undefined, 'Iben is called at once')
  await stage.advanceTo(at('06:31'))
  stage.expect(called(stage, 'ravi') === 0, 'nobody else is called yet')
}

async function twoSilentPeople(stage: Stage): Promise<void> {
  stage.say('\n=== Iben is silent')
  await stage.advanceTo(at('07:29'))
  stage.expect(called(stage, 'ravi') === 0, 'Ravi is not called before the hour is over')
  stage.say('  The bot is stopped in the middle of the call and started again.')
  await stage.bot.restart()
  await stage.advanceTo(at('07:31'))
  stage.expect(called(stage, 'ravi') === 1, 'Ravi, the cover, is called once when the hour is over')
  stage.expect(
    newest(stage, 'ravi', 'Iben Marlow (delivered)') !== undefined,
    'Ravi reads that the call to Iben was delivered, not that it was seen',
  )
  stage.say('\n=== Ravi is silent too')
  await stage.advanceTo(at('08:31'))
  stage.expect(called(stage, 'sunniva') === 1, 'Sunniva, the clinic lead, is called when two were silent')
  stage.expect(
    list(stage).includes('*Mika Oddvar*: not cleared today'),
    'the coaches see that Mika is not cleared, and not why',
  )
}

async function acknowledgedAndHandedOver(stage: Stage): Promise<void> {
  stage.say('\n=== Sunniva acknowledges, Iben comes late, Sunniva hands over')
  await presses(stage, 'sunniva', 'acknowledge')
  stage.expect(
    newest(stage, 'iben', 'Acknowledged by Sunniva Dray') !== undefined,
    'everybody called hears who has it',
  )
  const late = await presses(stage, 'iben', 'acknowledge')
  stage.expect(
    late?.includes('Sunniva Dray has this call already') ?? false,
    'Iben, pressing second, is told who has it',
  )
  await presses(stage, 'sunniva', 'open-hand-over')
  const sunniva = stage.as('sunniva')
  const screen = sunniva.modal()
  stage.expect(
    /Ravi Thornby.*Iben Marlow/s.test(JSON.stringify(screen?.blocks ?? [])),
    'Ravi, who knows bone stress, is offered before the others',
  )
  sunniva.fill('to', 'ravi')
  sunniva.fill('words', 'You know this case. Please see Mika today.')
  const sent = await sunniva.submit()
  stage.expect(sent.closed, 'the hand-over is saved and the form closes')
  await stage.settle()
  stage.expect(newest(stage, 'ravi', 'handed over to you') !== undefined, 'Ravi is called by name')
  await presses(stage, 'ravi', 'acknowledge')
  stage.expect(
    newest(stage, 'sunniva', 'Acknowledged by Ravi') !== undefined,
    'Sunniva hears that Ravi has it',
  )
}

async function closedAndLifted(stage: Stage): Promise<void> {
  stage.say('\n=== Half past ten: Ravi has seen Mika and closes the call; the hold stays')
  await stage.advanceTo(at('10:30'))
  await closesCall(stage, 'ravi', {
    disposition: 'seen in person',
    words: 'Seen in the clinic. Tender spot smaller, one-leg stand free of pain.',
    hold: 'keep',
  })
  stage.expect(newest(stage, 'iben', 'Closed by Ravi') !== undefined, 'Iben hears how it was closed')
  await stage.advanceTo(at('06:30', '2026-03-17'))
  await checksIn(stage, 'mika')
  stage.expect(
    newest(stage, 'mika', 'On hold until a therapist lifts it') !== undefined,
    'the hold outlives the call',
  )
  stage.say('\n=== The next day Iben lifts the hold by name')
  await stage.bot.submit('iben', {
    kind: 'hold-lifted',
    athlete: 'mika',
    hold: `hold/check-in/mika/${dayOne}`,
    words: 'Spoken with Ravi: free to start again on the same rung.',
  })
  await stage.bot.round()
  await stage.settle()
  stage.expect(
    newest(stage, 'mika', 'Iben Marlow lifted the hold') !== undefined,
    'Mika hears who lifted the hold',
  )
  await stage.advanceTo(at('06:30', '2026-03-18'))
  await checksIn(stage, 'mika')
  stage.expect(newest(stage, 'mika', 'Today: run') !== undefined, 'the next check-in gives a run again')
  const lead = stage.as('sunniva')
  await lead.command('/cover')
  await stage.settle()
  await lead.press({ modal: true }, 'open-figures')
  await stage.settle()
  const read = lead.modal()?.lines.join('\n') ?? ''
  stage.say(`  Sunniva opens the figures and reads: ${read}`)
  stage.expect(read.includes('1 calls'), 'the clinic lead sees how the calls went')
}

function called(stage: Stage, who: string): number {
  return stage
    .as(who)
    .messages()
    .filter((message) => message.text === 'You are being called. Please open this message now.').length
}

function list(stage: Stage): string {
  return JSON.stringify(stage.as('noor').messages(coachesChannel.id).at(-1)?.blocks ?? [])
}
