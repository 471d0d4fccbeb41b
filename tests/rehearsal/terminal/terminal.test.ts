import { pino } from 'pino'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { openFirstMorning, type Rehearsal } from '../../../src/commands/open-rehearsal.ts'
import { openTerminal, type Terminal } from '../../../src/rehearsal/terminal.ts'
import { takeTurns } from '../../../src/rehearsal/turns.ts'

let rehearsal: Rehearsal
let terminal: Terminal
const happened: string[] = []

beforeAll(async () => {
  rehearsal = await openFirstMorning({ say: (line) => happened.push(line), log: pino({ level: 'silent' }) })
  terminal = openTerminal(takeTurns(rehearsal.stage))
})
afterAll(() => rehearsal.close())

/** What the terminal answers to these lines, and what people saw meanwhile. */
async function typed(...lines: string[]): Promise<string> {
  happened.length = 0
  const answers: string[] = []
  for (const line of lines) answers.push(...((await terminal(line)) ?? []))
  return [...happened, ...answers].join('\n')
}

test('it begins on the first morning, with two athletes asked and the third still asleep', async () => {
  expect(await typed('clock')).toBe('The clock stands at mon 2026-03-16 06:30 in Lisbon.')
  expect(await typed('mika')).toContain('[Check in]')
  expect(await typed('joran')).not.toContain('[Check in]')
})

describe('a wrong line is answered with one line that says what is possible', () => {
  const cases = [
    { line: 'nobody see', says: 'Begin with mika, adaeze, joran' },
    { line: 'mika dance', says: 'mika can: /COMMAND, see' },
    { line: 'mika press "Go home"', says: 'there is: Check in' },
    { line: 'mika fill "Worst pain" 2', says: 'No form is open for Mika Oddvar' },
    { line: 'mika submit', says: 'no modal is open' },
    { line: 'mika see who-runs-today', says: 'Say "mika see".' },
    { line: 'mika say', says: 'Say what' },
    { line: 'clock yesterday', says: 'The clock can be pushed: next, +15m' },
    { line: 'clock 06:00', says: 'The clock cannot go back' },
    { line: 'clock +400d', says: 'at most 31 days' },
    { line: 'outage maybe', says: 'Say "outage on" or "outage off".' },
  ]
  for (const { line, says } of cases)
    test(line, async () => {
      const answer = await typed(line)
      expect(answer).toContain(says)
      expect(answer.split('\n')).toHaveLength(1)
    })
})

test('a form says what is missing, keeps what was typed, and is sent when it is whole', async () => {
  const opened = await typed('mika press "Check in"')
  expect(opened).toContain('The form "Check-in"')
  expect(await typed('mika fill "Worst pain..." 0')).toContain(': 0, no pain')
  expect(await typed('mika fill "Pain" 0')).toContain('Pain there now')
  expect(await typed('mika fill swelling perhaps')).toContain('none of what is offered: No | Yes | Not sure')
  const refused = await typed('mika submit')
  expect(refused).toContain('Not sent')
  expect(refused).toContain('Worst pain at the injured place since your last check-in (optional): 0, no pain')
  expect(refused).toContain('!! Please complete this required field.')
  await typed(
    'mika fill swelling no',
    'mika tick "Any of these..." None',
    'mika tick "At the bone" "None" "The pain"',
  )
  expect(await typed('mika submit')).toContain('!! Tick either what applies')
  expect(await typed('mika untick "At the bone" "The pain"')).toContain(
    'At the bone: any of these?: None of these',
  )
  const sent = await typed('mika submit')
  expect(sent).toContain('Sent, and the form is closed.')
  expect(sent).toContain('Today: run')
})

test('a command that is not for this role is answered in words to that person', async () => {
  expect(await typed('noor /checkin')).toContain('Only athletes check in')
})

test('somebody who writes to the bot sees the own words stand there', async () => {
  expect(await typed('ravi say Good morning')).toContain('Good morning')
})

test('while the platform fails nothing arrives; afterwards the bot catches up by itself', async () => {
  const failing = await typed('outage on', 'clock 07:35')
  expect(failing).toContain('The chat platform fails from now on.')
  expect(failing).not.toContain('Joran Pell sees')
  expect(await typed('outage off', 'clock +15m')).toContain('Joran Pell sees')
})

test('a red flag rings, goes on to the cover in silence, and stops ringing when somebody has it', async () => {
  await typed(
    'adaeze press "Check in"',
    'adaeze fill Worst 6',
    'adaeze fill Pain 5',
    'adaeze fill swelling no',
  )
  await typed('adaeze tick "Any of" None', 'adaeze tick Bone "Pain in" "One sore"')
  expect(await typed('adaeze submit')).toContain('Iben Marlow sees')
  expect(await typed('ringing')).toMatch(/^Ringing: iben, called at 07:50; without an answer by 08:50/)
  expect(await typed('clock +1h')).toContain('Ringing: ravi, called at 08:50')
  expect(await typed('ravi press "I have this call"')).toContain('Acknowledged by Ravi Thornby')
  expect(await typed('ringing')).toBe('')
  await typed('ravi press "Close with"', 'ravi fill Disposition "seen in person"')
  await typed('ravi fill "What was found" No tenderness.', 'ravi fill hold lift')
  expect(await typed('ravi submit')).toContain('Closed by Ravi Thornby')
})

test('clock next stops where the bot next does something by itself', async () => {
  expect(await typed('clock tomorrow 06:29', 'clock next')).toContain('stands at tue 2026-03-17 06:30')
})

test('quit, and nothing else, ends it', async () => {
  expect(await terminal('')).toEqual([])
  expect(await terminal('help')).toContain('Act as one of these, by the first name:')
  expect(await terminal('quit')).toBeUndefined()
})
