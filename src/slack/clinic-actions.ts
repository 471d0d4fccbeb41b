import { z } from 'zod'
import { ClinicEntry, clinicSubject, nameOf, type Person } from '../chart/roster.ts'
import { clinicFigures } from '../rules/clinic-figures.ts'
import { figures } from '../rules/figures.ts'
import { notYours } from '../rules/permissions.ts'
import { takesCalls } from '../rules/rota.ts'
import { escaped, type Modal, screen, section } from './blocks.ts'
import { chartsFor } from './caseload.ts'
import { clinicScreen } from './clinic.ts'
import { settingsModal } from './clinic-settings.ts'
import { type At, type Doorway, handInEither } from './door.ts'
import { figuresInWords } from './figures.ts'
import { aboutFrom } from './form.ts'
import { channelModal, personModal } from './people.ts'
import { type Pressed, refuse, showForm, showScreen } from './pressed.ts'
import { closedModal, coverModal, onCallModal } from './rota.ts'

const Withdraws = z.object({ withdraws: z.string() })
const Value = z.object({ person: z.string().optional() })
const trailShown = 60

/** What the clinic lead can press. */
export const clinicActions = {
  'open-clinic': opensForLead((at) => clinicScreen(at)),
  'open-person': opensForLead(async ({ doorway }, about) => {
    const team = await doorway.desk.team()
    return personModal(team, team.roster.people.get(about ?? ''))
  }),
  'open-channel': opensForLead(async ({ doorway }) => channelModal(await doorway.desk.team())),
  'open-settings': opensForLead(async ({ doorway: { desk } }) =>
    settingsModal(desk.clinic, (await desk.team()).clinic),
  ),
  'open-figures': opensForLead(figuresScreen),
  'open-audit': opensForLead(auditScreen),
  'open-on-call': opensForLead(async ({ doorway }) => onCallModal(await doorway.desk.team())),
  'open-closed': opensForLead(async () => closedModal()),
  'open-cover': async (doorway: Doorway, person: Person, pressed: Pressed) => {
    if (!takesCalls(person)) return refuse(pressed, notYours('cover'))
    await pressed.ack()
    await showForm(pressed, coverModal(await doorway.desk.team(), person))
  },
  withdraw: async (doorway: Doorway, person: Person, pressed: Pressed) => {
    const about = aboutFrom(Withdraws, pressed.action.value)
    if ('refused' in about) return refuse(pressed, about)
    const outcome = await handInEither(doorway, person, { kind: 'withdrawn', ...about })
    if ('refused' in outcome) return refuse(pressed, outcome)
    await pressed.ack()
    await showScreen(pressed, await clinicScreen({ doorway, person }))
  },
} as const

function opensForLead(view: (at: At, about: string | undefined) => Promise<Modal>) {
  return async (doorway: Doorway, person: Person, pressed: Pressed): Promise<void> => {
    if (!person.roles.includes('clinic-lead')) return refuse(pressed, notYours('see-people'))
    const about = aboutFrom(Value, pressed.action.value)
    if ('refused' in about) return refuse(pressed, about)
    await pressed.ack()
    await showForm(pressed, await view({ doorway, person }, about.person))
  }
}

async function figuresScreen(at: At): Promise<Modal> {
  const { desk } = at.doorway
  const charts = await chartsFor(at, 'see-figures')
  const f = clinicFigures(charts, await desk.team(), desk.clock.now())
  return screen({ door: 'figures', title: 'Figures', about: {} }, [
    section(
      [
        `Enrolled: ${f.enrolled}. On hold: ${f.onHold}. Open calls: ${f.openCalls}.`,
        `This morning: ${f.answeredToday} answered, ${f.missedToday} missed.`,
        `Runs in 7 days: ${f.runsIn7Days}.`,
      ].join('\n'),
    ),
    section(figuresInWords(figures(charts, desk.clinic.timeZone))),
  ])
}

/** Who wrote what kind of entry, when, in whose chart: never what it says. */
async function auditScreen(at: At): Promise<Modal> {
  const { desk } = at.doorway
  const team = await desk.team()
  const charts = await chartsFor(at, 'see-audit')
  const journal = await desk.store.read(clinicSubject, 0)
  const own = journal
    .slice(-trailShown)
    .map((entry) => ({ ...ClinicEntry.parse(entry), athlete: 'the clinic' }))
  const rows = [...charts.flatMap((chart) => chart.entries.slice(-trailShown)), ...own]
    .toSorted((a, b) => (a.recordedAt < b.recordedAt ? 1 : -1))
    .slice(0, trailShown)
    .map(
      (entry) =>
        `${entry.recordedAt.slice(0, 16).replace('T', ' ')} ${nameOf(team, entry.author)}: ${entry.kind.replaceAll('-', ' ')}, ${nameOf(team, entry.athlete)}`,
    )
  return screen({ door: 'audit', title: 'Audit trail', about: {} }, [
    section('Newest first, in UTC: when, who, what kind of entry, whose chart.'),
    ...inParts(rows).map((part) => section(escaped(part))),
  ])
}

function inParts(rows: readonly string[]): string[] {
  const parts: string[] = []
  for (let at = 0; at < rows.length; at += 20) parts.push(rows.slice(at, at + 20).join('\n'))
  return parts.length > 0 ? parts : ['Nothing has been written yet.']
}
