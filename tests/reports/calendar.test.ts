import ICAL from 'ical.js'
import { beforeAll, describe, expect, test } from 'vitest'
import { readChart } from '../../src/chart/chart.ts'
import { calendar } from '../../src/reports/calendar.ts'
import { type Record, twoWeeks } from './record.ts'

let record: Record
beforeAll(async () => {
  record = await twoWeeks()
})

/** Read back by another hand than the one that wrote it. */
function eventsOf(text: string) {
  const feed = new ICAL.Component(ICAL.parse(text))
  return feed.getAllSubcomponents('vevent').map((part) => {
    const event = new ICAL.Event(part)
    return {
      day: event.startDate.toString(),
      allDay: event.startDate.isDate,
      summary: event.summary,
      uid: event.uid,
    }
  })
}

describe('the calendar of an athlete', () => {
  test('has the runs done, the days that may come, and the review on the last day of the clearance', () => {
    const events = eventsOf(calendar(record.chart, record.team, record.now))
    const of = (summary: string) => events.filter((one) => one.summary === summary).map((one) => one.day)
    expect(of('Run done')).toEqual(['2026-03-16', '2026-03-18', '2026-03-23', '2026-03-25'])
    expect(of('Possible running day')[0]).toBe('2026-03-30')
    expect(of('Possible running day').at(-1)).toBe('2026-04-12')
    expect(of('Review with the therapist')).toEqual(['2026-04-12'])
    expect(events.every((one) => one.allDay)).toBe(true)
    expect(new Set(events.map((one) => one.uid)).size).toBe(events.length)
  })

  test('keeps to lines of 75 octets that end in CR LF', () => {
    const text = calendar(record.chart, record.team, record.now)
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/)
    for (const line of text.split('\r\n')) expect(Buffer.byteLength(line), line).toBeLessThanOrEqual(75)
  })

  test('says nothing medical: calendars are shared', () => {
    const text = calendar(record.chart, record.team, record.now)
    expect(text).not.toMatch(/pain|tibia|stress|red flag|hold|body weight/i)
  })

  test('promises no run while running is on hold', async () => {
    const hold = {
      id: 'hold/mika/9',
      athlete: 'mika',
      author: 'iben',
      recordedAt: record.now,
      kind: 'hold' as const,
      about: 'hold/mika/9',
      because: [{ finding: 'therapist', words: 'wait', source: 'therapist' }],
    }
    const held = readChart('mika', [...record.chart.entries, hold])
    const events = eventsOf(calendar(held, record.team, record.now))
    expect(events.some((one) => one.summary === 'Possible running day')).toBe(false)
  })

  test('promises nothing after the clearance ends', () => {
    const events = eventsOf(calendar(record.chart, record.team, '2026-04-13T10:00:00.000Z'))
    expect(events.every((one) => one.summary === 'Run done')).toBe(true)
  })
})
