import { metresOf, runMinutes } from '../chart/dose.ts'
import { doseOf, type Ladder, metresPerMile } from '../chart/ladder.ts'
import { nextStep } from './move.ts'

/** A fault of a ladder: where in the file (a path of keys and positions), and what is wrong. */
export type Fault = { readonly at: readonly (string | number)[]; readonly words: string }

/** Works the ladder's own examples through the rules; empty when all come out as the file says. */
export function faultsOf(ladder: Ladder): readonly Fault[] {
  return ladder.examples.flatMap((example, i) => {
    const at = ['examples', i]
    const rung = ladder.rungs[example.rung - 1]
    if (!rung) return [{ at, words: `there is no rung ${example.rung}` }]
    if ('runMinutes' in example) {
      const { low, high } = runMinutes(doseOf(rung))
      const fits = same(low, example.runMinutes.low) && same(high, example.runMinutes.high)
      return fits ? [] : [{ at, words: `rung ${example.rung} runs ${low} to ${high} minutes` }]
    }
    if ('miles' in example) {
      const miles = (gait: 'run' | 'walk') => metresOf(doseOf(rung), gait) / metresPerMile
      const fits = same(miles('run'), example.miles.run) && same(miles('walk'), example.miles.walk)
      const words = `rung ${example.rung} walks ${miles('walk').toFixed(2)} and runs ${miles('run').toFixed(2)} miles`
      return fits ? [] : [{ at, words }]
    }
    const { move } = nextStep(ladder, { ...example, rungsUpIn7Days: 0 }, example.response)
    return move === example.move
      ? []
      : [{ at, words: `the rules say ${move}, the example says ${example.move}` }]
  })
}

function same(a: number, b: number): boolean {
  return Math.abs(a - b) < 1e-6
}
