/** What lies between the published figures: never one number where the studies disagree. */
export type Range = { readonly low: number; readonly high: number }

export type Point = readonly [number, number]

export function scaled(range: Range, factor: number): Range {
  return { low: range.low * factor, high: range.high * factor }
}

export function product(a: Range, b: Range): Range {
  return { low: a.low * b.low, high: a.high * b.high }
}

export function within(value: number, [low, high]: readonly [number, number]): boolean {
  return value >= low && value <= high
}

/** Straight lines between points with rising x; held at the first and last value outside them. */
export function along(points: readonly Point[], x: number): number {
  let before = points[0] as Point
  if (x <= before[0]) return before[1]
  for (const after of points) {
    if (x <= after[0])
      return before[1] + ((after[1] - before[1]) * (x - before[0])) / (after[0] - before[0] || 1)
    before = after
  }
  return before[1]
}

/** As `along`, but the first and last straight lines go on for ever. For lines a source calls linear. */
export function alongLine(points: readonly Point[], x: number): number {
  const upper = Math.max(
    1,
    Math.min(
      points.length - 1,
      points.findIndex(([at]) => at >= x),
    ),
  )
  const last = points.length - 1
  const end = x > (points[last] as Point)[0] ? last : upper
  const [x0, y0] = points[end - 1] as Point
  const [x1, y1] = points[end] as Point
  return y0 + ((y1 - y0) * (x - x0)) / (x1 - x0)
}
