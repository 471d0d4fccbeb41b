import { z } from 'zod'
import type { Chart } from '../chart/chart.ts'
import { Review } from '../chart/review.ts'
import { nameOf, type Team } from '../chart/roster.ts'
import { review } from '../rules/review.ts'
import { reviewInWords } from '../rules/review-words.ts'
import type { Shelf } from '../rules/shelf.ts'
import { context, escaped, header, type Modal, modal, section, textInput } from './blocks.ts'
import { clearanceModal } from './clearance.ts'
import { optionsOf, radioFrom } from './pickers.ts'
import { planModal } from './plan.ts'
import { reads } from './reading.ts'

const OfReview = z.object({ athlete: z.string(), day: z.string() })

/** The week in words, and the signature under it with what comes next. */
export function reviewModal(chart: Chart, team: Team, shelf: Shelf, now: string): Modal {
  const seen = review(chart, team, shelf, now)
  const last = chart.reviews.at(-1)
  const about = { athlete: chart.athlete, day: seen.day }
  return modal({ door: 'review', title: 'Weekly review', submit: 'Sign', about }, [
    section(
      `*${escaped(nameOf(team, chart.athlete))}*, ${seen.week.from} to ${seen.week.to}; the week before in brackets.\n${last ? `Last review: ${last.day}, ${escaped(nameOf(team, last.author))}: ${last.next}.` : 'No review yet.'}`,
    ),
    ...reviewInWords(seen).flatMap(({ title, lines }) => [
      header(title),
      section(lines.map(escaped).join('\n') || 'None for this episode.'),
    ]),
    radioFrom({ name: 'next', label: 'What comes next' }, optionsOf(Review.shape.next.options)),
    textInput({ name: 'words', label: 'Words', optional: true, most: 1000 }),
    context('Signing says that you have read this; it changes no dose. The findings are not a diagnosis.'),
  ])
}

/** Whoever decides to change something gets the form for it in the place of this one. */
export const reviewRead = reads(OfReview, async ({ doorway }, form, { athlete, day }) => {
  const { desk } = doorway
  const next = form.choice('next')
  const words = form.text('words')
  return {
    hands: [{ kind: 'review', athlete, day, next, ...(words ? { words } : {}) }],
    next: async (chart) => {
      if (chart && next === 'change the plan' && chart.episode)
        return planModal(chart, desk.library, 'alone', nameOf(await desk.team(), athlete))
      return chart && next === 'change the clearance' ? clearanceModal(chart) : undefined
    },
  }
})
