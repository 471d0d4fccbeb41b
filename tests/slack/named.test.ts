import { expect, test } from 'vitest'
import { readRoster } from '../../src/chart/roster.ts'
import { openLibrary } from '../../src/desk/library.ts'
import { personNamed } from '../../src/slack/named.ts'
import { idFor } from '../../src/slack/people.ts'

const { clinic } = openLibrary('shared')
const person = (id: string, name: string, account: string) => ({
  id: `person/${id}`,
  author: 'sunniva',
  recordedAt: '2026-01-01T08:00:00.000Z',
  kind: 'person' as const,
  person: { id, name, roles: ['athlete' as const], chatUser: account, timeZone: 'UTC', active: true },
})
const team = {
  clinic,
  roster: readRoster([person('mika', 'Mika Oddvar', 'U1MIKA'), person('mika-2', 'Mika Lund', 'U2MIKA')]),
}

test('a mention names its account, with or without the name behind it', () => {
  expect(personNamed('<@U1MIKA|mika>', team)).toMatchObject({ id: 'mika' })
  expect(personNamed(' <@U2MIKA> ', team)).toMatchObject({ id: 'mika-2' })
  expect(personNamed('<@U3GONE>', team)).toMatchObject({ refused: 'unknown-person' })
})

test('a name that fits two is refused with both; a part that fits one is enough', () => {
  expect(personNamed('mika lund', team)).toMatchObject({ id: 'mika-2' })
  expect(personNamed('odd', team)).toMatchObject({ id: 'mika' })
  expect(personNamed('Mika ', { ...team })).toMatchObject({ id: 'mika' })
  expect(personNamed('mik', team)).toMatchObject({ words: expect.stringContaining('Mika Oddvar, Mika Lund') })
  expect(personNamed('  ', team)).toBeUndefined()
})

test('a short name in the record is made of the name and never taken twice', () => {
  expect(idFor('Åsa Ek', team)).toBe('asa-ek')
  expect(idFor('Mika', team)).toBe('mika-3')
  expect(idFor('مرحبا', team)).toBe('person')
})
