import { z } from 'zod'
import type { Chart } from '../chart/chart.ts'
import { dayAt } from '../chart/day.ts'
import { LadderWish } from '../chart/ladder-wish.ts'
import { nameOf, type Person } from '../chart/roster.ts'
import type { Library } from '../desk/library.ts'
import type { Built, BuiltRung } from '../rules/builder.ts'
import { ladderFor } from '../rules/built-ladder.ts'
import { isRefusal } from '../rules/decision.ts'
import { may, notYours } from '../rules/permissions.ts'
import { buttons, context, escaped, type Modal, modal, numberInput, option, section } from './blocks.ts'
import { callerNow, type Doorway } from './door.ts'
import { aboutFrom, type Form } from './form.ts'
import { radioFrom } from './pickers.ts'
import { planFields } from './plan.ts'
import { type Pressed, refuse, showForm, showScreen } from './pressed.ts'
import { reads } from './reading.ts'

const OfBuild = z.object({ athlete: z.string(), onTheWay: z.boolean().default(false) })
const OfDraft = OfBuild.extend({ wish: LadderWish.optional() })
type OfBuild = z.infer<typeof OfBuild>

/** The first guess of both limits, which the therapist sets: common practice, no published figure. */
const usualRise = { forceRisePct: 10, loadRisePct: 20 }

/** From where, to where, and the most that may rise; filled in again when somebody comes back from the draft. */
export function buildModal(about: OfBuild, { treadmill }: Library['clinic'], wish?: LadderWish): Modal {
  const { bodyWeightPct, speedMps } = treadmill
  const initial = (value: number | undefined) => (value === undefined ? {} : { initial: value })
  const speed = { low: 1, high: kmh(speedMps.high), decimal: true }
  const minutes = { low: 1, high: 240, decimal: true }
  const rise = { low: 1, high: 100, decimal: true }
  const most = wish?.most ?? usualRise
  return modal({ door: 'build-ladder', title: 'Build a ladder', submit: 'Show the draft', about }, [
    section('One thing changes from rung to rung. What comes out is a draft until you sign it.'),
    numberInput({
      name: 'bodyWeightPct',
      label: 'Start: body weight carried, in %',
      ...bodyWeightPct,
      decimal: !Number.isInteger(bodyWeightPct.step),
      ...initial(wish?.start.bodyWeightPct),
    }),
    numberInput({
      name: 'speedKmh',
      label: 'Start: speed, in km/h',
      ...speed,
      ...initial(wish && kmh(wish.start.speedMps)),
    }),
    numberInput({
      name: 'minutes',
      label: 'Start: minutes of running',
      ...minutes,
      ...initial(wish?.start.minutes),
    }),
    numberInput({
      name: 'goalSpeedKmh',
      label: 'Goal: speed, in km/h',
      ...speed,
      ...initial(wish && kmh(wish.goal.speedMps)),
    }),
    numberInput({
      name: 'goalMinutes',
      label: 'Goal: minutes of running',
      ...minutes,
      ...initial(wish?.goal.minutes),
    }),
    radioFrom(
      { name: 'on', label: 'Goal: where' },
      [option('ground', 'on the ground'), option('lbpp-treadmill', 'in the treadmill')],
      wish?.goal.on ?? 'ground',
    ),
    numberInput({
      name: 'forceRisePct',
      label: 'Peak force may rise from rung to rung by at most, in %',
      hint: 'Yours to set [common-practice].',
      ...rise,
      initial: most.forceRisePct,
    }),
    numberInput({
      name: 'loadRisePct',
      label: 'The load of a session may rise by at most, in %',
      hint: 'Steps times peak force. Yours to set [common-practice].',
      ...rise,
      initial: most.loadRisePct,
    }),
  ])
}

/** Builds, and shows the draft in the place of the form; a refusal leaves the form with what was typed. */
export const buildRead = reads(OfBuild, async ({ doorway, person }, form, about) => {
  const { desk } = doorway
  const chart = await desk.charts.read(about.athlete)
  if (!may(await callerNow(doorway, person), 'plan-signed', chart)) return notYours('plan-signed')
  const read = LadderWish.safeParse(wishFrom(form))
  if (!read.success) {
    const { path = [], message = '' } = read.error.issues[0] ?? {}
    return { refused: 'malformed', words: `${message}.`, field: fieldOf(path.join('.')) }
  }
  const team = await desk.team()
  const today = dayAt(desk.clock.now(), chart.enrolment?.timeZone ?? team.clinic.timeZone)
  const built = ladderFor(chart, read.data, team.clinic, today)
  if (isRefusal(built)) return { ...built, field: fieldOf(built.field ?? '') }
  const draft = { ...about, wish: read.data, built, name: nameOf(team, about.athlete) }
  return { hands: [], next: async () => draftModal(chart, desk.library, draft) }
})

/** The form to build with: over the chart, or in the place of the form in front. */
export async function openBuilder(doorway: Doorway, person: Person, pressed: Pressed): Promise<void> {
  const about = aboutFrom(OfDraft, pressed.action.value)
  if ('refused' in about) return refuse(pressed, about)
  const { wish, ...of } = about as z.infer<typeof OfDraft>
  const chart = await doorway.desk.charts.read(of.athlete)
  if (!may(await callerNow(doorway, person), 'plan-signed', chart))
    return refuse(pressed, notYours('plan-signed'))
  if (!chart.episode) return refuse(pressed, { refused: 'no-episode', words: 'Write the episode first.' })
  await pressed.ack()
  const { clinic } = await doorway.desk.team()
  const show = pressed.body.view?.callback_id === 'plan' ? showScreen : showForm
  await show(pressed, buildModal(of, clinic, wish))
}

type Draft = OfBuild & { readonly wish: LadderWish; readonly built: Built; readonly name: string }

/** Rung by rung what it costs and what changed, and under it what is signed with it. */
function draftModal(chart: Chart, library: Library, { wish, built, name, ...about }: Draft): Modal {
  const { ladder, rungs } = built
  const value = JSON.stringify({ ...about, wish })
  const spec = { door: 'plan', title: 'Draft of a ladder', submit: 'Sign', about: { ...about, wish } }
  return modal(spec, [
    section(`*${escaped(ladder.title)}*, for *${escaped(name)}*\n${escaped(ladder.about)}`),
    ...inParts(rungs.map(rungInWords)).map(section),
    context(
      `${rungs.length} rungs; at most ${ladder.limits.rungsUpPer7Days} up in 7 days, ${ladder.limits.daysFromRunToRun} days from run to run.`,
      'Force, steps and load at the heavy end of the published figures, in body weights (BW); the rise is the larger of both ends.',
      'Less weight is not less shock at the shin [moran-2017]. The treadmill set to 100 % carries about 93 % [set-actual-2015].',
    ),
    buttons({ does: 'open-builder', label: 'Change the draft', value }),
    ...planFields(chart, library, { rungs: rungs.length, onTheWay: about.onTheWay }),
  ])
}

function rungInWords({ stage, cost, changed, forceRisePct, loadRisePct }: BuiltRung, i: number): string {
  const repeats = Math.ceil(stage.minutes / stage.boutMinutes - 1e-9)
  const each = Number((stage.minutes / repeats).toFixed(2))
  const where = stage.on === 'ground' ? 'on the ground' : `at ${stage.bodyWeightPct} %`
  const { mets } = cost.cost
  const met = typeof mets === 'number' ? mets.toFixed(1) : `${mets.low.toFixed(1)} to ${mets.high.toFixed(1)}`
  const rise = (pct: number) => (i === 0 ? '' : ` (+${pct.toFixed(0)} %)`)
  return [
    `*${i + 1}. ${changed}*: run ${repeats} times ${each} min ${where}, ${kmh(stage.speedMps)} km/h.`,
    `Peak force ${cost.peakForceBw.high.toFixed(2)} BW${rise(forceRisePct)}, ${cost.steps.high.toFixed(0)} steps, load ${cost.loadBw.high.toFixed(0)} BW${rise(loadRisePct)}, ${met} MET.`,
  ].join(' ')
}

const linesInPart = 12

function inParts(lines: readonly string[]): string[] {
  const parts = Math.ceil(lines.length / linesInPart)
  return Array.from({ length: parts }, (_, i) =>
    lines.slice(i * linesInPart, (i + 1) * linesInPart).join('\n'),
  )
}

const fields: Readonly<Record<string, string>> = {
  'start.bodyWeightPct': 'bodyWeightPct',
  'start.speedMps': 'speedKmh',
  'start.minutes': 'minutes',
  'goal.speedMps': 'goalSpeedKmh',
  'goal.minutes': 'goalMinutes',
  'goal.on': 'on',
}

/** Where the form asks for what stands at a path of the wish. */
function fieldOf(path: string): string {
  return fields[path] ?? path
}

function wishFrom(form: Form): object {
  const speed = (name: string) => {
    const value = form.number(name)
    return value === undefined ? undefined : value / 3.6
  }
  return {
    start: {
      bodyWeightPct: form.number('bodyWeightPct'),
      speedMps: speed('speedKmh'),
      minutes: form.number('minutes'),
    },
    goal: { speedMps: speed('goalSpeedKmh'), minutes: form.number('goalMinutes'), on: form.choice('on') },
    most: { forceRisePct: form.number('forceRisePct'), loadRisePct: form.number('loadRisePct') },
  }
}

function kmh(speedMps: number): number {
  return Number((speedMps * 3.6).toFixed(1))
}
