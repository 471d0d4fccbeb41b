import type { KnownBlock } from '@slack/types'
import type { Ceiling } from '../chart/dose.ts'
import { numberInput } from './blocks.ts'
import type { Form } from './form.ts'

/** The three settings of a ceiling; the speed is asked in km/h as the machine shows it. */
export function ceilingFields(what: string, before: Ceiling | undefined): KnownBlock[] {
  const initial = (value: number | undefined) => (value === undefined ? {} : { initial: value })
  return [
    numberInput({
      name: 'bodyWeightPct',
      label: `${what}: body weight carried, in %`,
      low: 1,
      high: 100,
      ...initial(before?.bodyWeightPct),
    }),
    numberInput({
      name: 'speedKmh',
      label: `${what}: speed, in km/h`,
      low: 1,
      high: 36,
      decimal: true,
      ...initial(before && Number((before.speedMps * 3.6).toFixed(1))),
    }),
    numberInput({
      name: 'runMinutes',
      label: `${what}: minutes of running in a session`,
      low: 1,
      high: 240,
      ...initial(before?.runMinutes),
    }),
  ]
}

export function ceilingFrom(form: Form): object {
  const speedKmh = form.number('speedKmh')
  return {
    bodyWeightPct: form.number('bodyWeightPct'),
    speedMps: speedKmh === undefined ? undefined : speedKmh / 3.6,
    runMinutes: form.number('runMinutes'),
  }
}
