import { publishedNoise, type Spread, type WeekOfCalls } from '../rules/figures.ts'

/** The clinic lead's figures of the last weeks, as lines of text; nobody is named. */
export function figuresInWords(weeks: readonly WeekOfCalls[]): string {
  const noise = publishedNoise.map(({ words, pct, source }) => `${pct} % of ${words} [${source}]`)
  const lines = weeks.slice(-8).map(weekInWords)
  return [
    ...(lines.length > 0 ? lines : ['No check-ins and no calls yet.']),
    `Published noise to read this against: ${noise.join('; ')}.`,
  ].join('\n')
}

function weekInWords(week: WeekOfCalls): string {
  const share = (value: number | undefined, unit: string) =>
    value === undefined ? '-' : `${value.toFixed(1)}${unit}`
  return [
    `*Week of ${week.week}*: ${week.calls} calls in ${week.checkIns} check-ins (${share(week.callsPer100CheckIns, ' per 100')})`,
    `acknowledged after ${spreadInWords(week.minutesToAcknowledge)}`,
    `closed after ${spreadInWords(week.minutesToClose)}`,
    `handed on ${share(week.handedOnPct, ' %')}, repeats ${week.repeats}, breaches ${week.breaches}, still open ${week.open}`,
  ].join('; ')
}

function spreadInWords(spread: Spread | undefined): string {
  return spread ? `${Math.round(spread.median)} min (nine in ten within ${Math.round(spread.p90)})` : '-'
}
