import { rm } from 'node:fs/promises'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import * as command from '../../src/commands/amend-request.ts'
import { keepClock } from '../../src/commands/rehearsed-clock.ts'
import { openDeskAtWork } from '../desk/desk.ts'
import { folderOf, typed } from './clinic-folder.ts'

let folder: string
beforeEach(async () => {
  folder = await folderOf(await openDeskAtWork(['mika']))
})
afterEach(() => rm(folder, { recursive: true }))

const says = (...argv: string[]) => typed(command, '--athlete', 'mika', ...argv, '--data', folder)
const request = 'amendment-request/mika/1'

describe('sanderling amend-request', () => {
  test('shows by when an open request is answered, and which law says so', async () => {
    const { said } = await says('--ask', 'Wrong side.', '--entry', 'episode/mika/1', '--by', 'mika')
    expect(said).toContain(`${request} about episode/mika/1: Wrong side.\n  open, answer by 2026-05-14\n`)
    expect(said).toContain('45 CFR 164.526')
  })

  test('shows an extension, a refusal and a disagreement', async () => {
    await says('--ask', 'Wrong.', '--by', 'mika')
    expect((await says('--extend', request, '--words', 'Away.', '--by', 'iben')).said).toContain(
      'open, answer by 2026-06-13 (extended)',
    )
    const denied = [
      '--outcome',
      'denied',
      '--ground',
      'accurate and complete',
      '--words',
      'As measured.',
      '--by',
      'iben',
    ]
    expect((await says('--answer', request, ...denied)).said).toContain('denied: As measured.')
    expect((await says('--disagree', request, '--words', 'No.', '--by', 'mika')).said).toContain(
      'disagrees: No.',
    )
  })

  test('says that an answer is late', async () => {
    await says('--ask', 'Wrong.', '--by', 'mika')
    keepClock(folder, { now: () => '2026-05-15T10:00:00.000Z' })
    expect((await says()).said).toContain('answer by 2026-05-14, LATE')
  })

  test('says a refusal in words', async () => {
    const { code, said } = await says('--ask', 'Wrong.', '--by', 'noor')
    expect([code, said]).toEqual([1, 'This is for the athlete or the therapist. Please ask them.'])
  })
})
