import type { Chart } from '../chart/chart.ts'
import { dayAt } from '../chart/day.ts'
import type { Team } from '../chart/roster.ts'
import { holdReasons } from '../rules/in-confidence.ts'
import { raises } from '../rules/raises.ts'
import { type Modal, modal, option, section, textInput } from './blocks.ts'
import { selectFrom } from './pickers.ts'
import { OfAthlete, reads } from './reading.ts'

export function holdModal(chart: Chart): Modal {
  return modal({ door: 'hold', title: 'Hold running', submit: 'Hold', about: { athlete: chart.athlete } }, [
    section('No running from now on, until a therapist lifts it. Athlete and coaches hear of it at once.'),
    textInput({ name: 'words', label: 'Why (the athlete can read it)', most: 1000 }),
  ])
}

export const holdRead = reads(OfAthlete, async (_, form, { athlete }) => ({
  hands: [{ kind: 'hold', athlete, words: form.text('words') ?? '' }],
}))

export function liftModal(chart: Chart, reader: string, team: Team): Modal {
  const holds = chart.holds.map((hold) =>
    option(hold.id, holdReasons(hold, chart, reader, team)[0]?.words || hold.recordedAt.slice(0, 10)),
  )
  return modal(
    { door: 'lift-hold', title: 'Lift a hold', submit: 'Lift', about: { athlete: chart.athlete } },
    [
      section('It gives no run today: the next check-in decides.'),
      selectFrom({ name: 'hold', label: 'Which hold' }, holds, chart.holds[0]?.id),
      textInput({ name: 'words', label: 'Why it can be lifted', most: 1000 }),
    ],
  )
}

export const liftRead = reads(OfAthlete, async ({ doorway }, form, { athlete }) => {
  const { desk } = doorway
  const chart = await desk.charts.read(athlete)
  const lifting = {
    kind: 'hold-lifted' as const,
    athlete,
    hold: form.choice('hold') ?? '',
    words: form.text('words') ?? '',
  }
  const today = dayAt(desk.clock.now(), chart.enrolment?.timeZone ?? desk.clinic.timeZone)
  return { hands: [lifting], raises: raises(chart, lifting, desk.library, today) }
})
