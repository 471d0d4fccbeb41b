import type { KeptChart } from './kept-chart.ts'

/** Keeps the entries of the charts read last in memory, up to `mostBytes` of their files. */
export function atHand(mostBytes: number) {
  const sizes = new Map<KeptChart, number>()
  let bytes = 0

  return function keep(kept: KeptChart) {
    bytes += kept.chart.size - (sizes.get(kept) ?? 0)
    sizes.delete(kept)
    sizes.set(kept, kept.chart.size)
    for (const [other, size] of sizes) {
      if (bytes <= mostBytes || other === kept) return
      bytes -= size
      sizes.delete(other)
      delete other.chart.entries
    }
  }
}
