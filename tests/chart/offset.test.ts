import { Temporal } from 'temporal-polyfill'
import { expect, test } from 'vitest'
import { dayAt, instantAt, plusDays, plusMinutes, wallTimeAt } from '../../src/chart/day.ts'

const zones = ['Europe/Lisbon', 'America/St_Johns', 'Australia/Lord_Howe', 'America/Asuncion', 'Pacific/Apia']

for (const zone of zones)
  test(`what is remembered of ${zone} is what the calendar says, on every day of two years`, () => {
    for (const start of ['2011-06-01', '2024-01-01'])
      for (let n = 0; n < 366; n += 1)
        for (const time of ['00:00', '00:15', '01:45', '02:30', '06:30', '23:30']) {
          const day = plusDays(start, n)
          const wall = Temporal.PlainDateTime.from(`${day}T${time}`).toZonedDateTime(zone)
          const instant = plusMinutes(wall.toInstant().toString(), 0)
          if (instantAt(day, time, zone) !== instant) expect.fail(`${day} ${time} in ${zone}`)
          if (dayAt(instant, zone) !== wall.toPlainDate().toString()) expect.fail(`the day at ${instant}`)
          const shown = wall.toPlainTime().toString({ smallestUnit: 'minute' })
          if (wallTimeAt(instant, zone) !== shown) expect.fail(`the wall at ${instant}`)
        }
  })
