/** Which standard deviation: of a sample (n - 1) or of a whole population (n). Never left to guess. */
export type Spread = 'sample' | 'population'

export function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0)
}

/** NaN for no values: callers ask only of something. */
export function mean(values: readonly number[]): number {
  return sum(values) / values.length
}

/**
 * Exactly 0 when all values are equal: rounding in the mean must not turn "always the same answer" into a
 * tiny spread that something is then divided by.
 */
export function standardDeviation(values: readonly number[], spread: Spread): number {
  if (values.every((value) => value === values[0])) return 0
  const middle = mean(values)
  const squares = sum(values.map((value) => (value - middle) ** 2))
  return Math.sqrt(squares / (spread === 'sample' ? values.length - 1 : values.length))
}

export function standardScore(value: number, middle: number, sd: number): number {
  return (value - middle) / sd
}
