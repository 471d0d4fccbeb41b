import type { Escalation } from '../chart/chart.ts'
import type { EntryOf } from '../chart/entries.ts'
import { standingEntries } from '../chart/struck.ts'
import { amendRequests, answerBy } from '../rules/amend-request.ts'
import { table } from './csv-table.ts'

const at = (entry: { recordedAt: string } | undefined) => entry?.recordedAt

export const escalationTable = table<Escalation>(
  'escalations',
  'Red flags on their way to a human, one row a call, to its closing.',
  (chart) => chart.escalations,
  (row) => row.opened,
  [
    { name: 'tier', unit: '', about: 'emergency (at once) or urgent (today).', of: (row) => row.tier },
    {
      name: 'because',
      unit: '',
      about: 'What was found.',
      of: (row) => row.because.map((reason) => reason.words).join(' '),
    },
    {
      name: 'sources',
      unit: '',
      about: 'Source keys of the signs.',
      of: (row) => row.because.map((reason) => reason.source).join(' '),
    },
    {
      name: 'called',
      unit: '',
      about: 'Ids of who was called, in order.',
      of: (row) => row.calls.map((call) => call.person).join(' '),
    },
    {
      name: 'acknowledged_by',
      unit: '',
      about: 'Ids of who acknowledged, in order.',
      of: (row) => row.acknowledgements.map((one) => one.author).join(' '),
    },
    {
      name: 'acknowledged_at',
      unit: 'UTC',
      about: 'First acknowledgement.',
      of: (row) => at(row.acknowledgements[0]),
    },
    { name: 'closed_by', unit: '', about: 'Id of who closed it.', of: (row) => row.closed?.author },
    { name: 'closed_at', unit: 'UTC', about: 'Empty while it is open.', of: (row) => at(row.closed) },
    { name: 'disposition', unit: '', about: 'What came of it.', of: (row) => row.closed?.disposition },
    { name: 'closing_words', unit: '', about: 'Words of whoever closed it.', of: (row) => row.closed?.words },
  ],
)

type Correction = {
  readonly entry: EntryOf<'amendment' | 'amendment-request'>
  readonly about: string | undefined
  readonly answer: string
  readonly answerBy: string | undefined
  readonly answerWords: string | undefined
  readonly disagreement: string | undefined
}

export const amendmentTable = table<Correction>(
  'corrections',
  'Amendments that struck an entry, and requests to amend with their answers.',
  (chart, team) => [
    ...standingEntries(chart).flatMap((entry): Correction[] =>
      entry.kind === 'amendment'
        ? [
            {
              entry,
              about: entry.strikes,
              answer: '',
              answerBy: undefined,
              answerWords: undefined,
              disagreement: undefined,
            },
          ]
        : [],
    ),
    ...amendRequests(chart).map((request) => ({
      entry: request.asked,
      about: request.asked.entry,
      answer: request.answered?.outcome ?? 'open',
      answerBy: answerBy(request, chart, team),
      answerWords: request.answered?.words,
      disagreement: request.disagreement?.words,
    })),
  ],
  (row) => row.entry,
  [
    { name: 'kind', unit: '', about: 'amendment, or request to amend.', of: (row) => row.entry.kind },
    { name: 'about', unit: '', about: 'The entry that it is about.', of: (row) => row.about },
    { name: 'words', unit: '', about: 'The reason, or what is asked for.', of: (row) => row.entry.words },
    { name: 'answer', unit: '', about: 'struck, appended, denied, or open.', of: (row) => row.answer },
    { name: 'answer_by', unit: 'date', about: 'Last day for an answer.', of: (row) => row.answerBy },
    { name: 'answer_words', unit: '', about: 'The reason that was given.', of: (row) => row.answerWords },
    {
      name: 'disagreement',
      unit: '',
      about: "The athlete's statement against a refusal.",
      of: (row) => row.disagreement,
    },
  ],
)
