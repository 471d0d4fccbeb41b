import type { KnownBlock } from '@slack/types'
import type { Refusal } from '../rules/decision.ts'
import type { Turned } from '../rules/live-change.ts'
import { checkboxes, numberInput, option, section, select } from './blocks.ts'
import type { Form } from './form.ts'

const scale = Array.from({ length: 11 }, (_, pain) => option(String(pain), String(pain)))

/** What was turned down on the way, or ended: it counts as the dose done, so the bouts above stay as they began. */
export function changeFields(ground: boolean): KnownBlock[] {
  return [
    section(
      '*Turned down, or ended early?* Leave the bouts above as they began; what changed is taken off them.',
    ),
    select({ name: 'changeWhy', label: 'Why', optional: true }, [
      option('pain', 'Pain'),
      option('gait', 'Not running evenly'),
      option('breath', 'Out of breath'),
      option('other', 'Something else'),
    ]),
    numberInput({
      name: 'changeAtMinute',
      label: 'After how many minutes of running',
      low: 0,
      high: 240,
      decimal: true,
      optional: true,
    }),
    select({ name: 'changePain', label: 'Pain then (0-10)', optional: true }, scale),
    ...(ground
      ? []
      : [
          numberInput({
            name: 'changeBodyWeightPct',
            label: 'Body weight carried from then on, in %',
            low: 1,
            high: 100,
            optional: true,
          }),
        ]),
    numberInput({
      name: 'changeSpeedKmh',
      label: 'Speed from then on, in km/h',
      low: 0,
      high: 36,
      decimal: true,
      optional: true,
    }),
    checkboxes({ name: 'changeStopped', label: 'Or', optional: true }, [
      option('stopped', 'I stopped running there'),
    ]),
  ]
}

/** Undefined when nothing was turned down; a refusal at the field that a change cannot do without. */
export function changeFrom(form: Form): Turned | Refusal | undefined {
  const why = form.choice('changeWhy')
  const atMinute = form.number('changeAtMinute')
  const pain = form.choice('changePain')
  const bodyWeightPct = form.number('changeBodyWeightPct')
  const speedKmh = form.number('changeSpeedKmh')
  const stopped = form.choices('changeStopped')?.includes('stopped') ?? false
  const turned = bodyWeightPct !== undefined || speedKmh !== undefined || stopped
  if (!why && atMinute === undefined && pain === undefined && !turned) return undefined
  if (!why) return missing('Why was it turned down, or ended?', 'changeWhy')
  if (atMinute === undefined) return missing('After how many minutes of running?', 'changeAtMinute')
  if (!turned) return missing('What changed then: the weight, the speed, or did you stop?', 'changeStopped')
  return {
    atMinute,
    why: why as Turned['why'],
    ...(pain === undefined ? {} : { pain: Number(pain) }),
    ...(bodyWeightPct === undefined ? {} : { bodyWeightPct }),
    ...(speedKmh === undefined ? {} : { speedMps: speedKmh / 3.6 }),
    ...(stopped ? { stopped } : {}),
  }
}

function missing(words: string, field: string): Refusal {
  return { refused: 'half-filled', words, field }
}
