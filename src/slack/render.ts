import { createHash } from 'node:crypto'
import type { SetUpCard } from '../chart/set-up-card.ts'
import type { Told } from '../desk/ports.ts'
import { clearedLine } from '../rules/cleared.ts'
import { type Message, section } from './blocks.ts'
import { callMessage, callNewsMessage } from './call.ts'
import { promptMessage, reminderMessage } from './check-in.ts'
import { clearedMessage, listMessage } from './cleared.ts'
import { prescriptionMessage } from './prescription.ts'
import { stopMessage, supportMessage } from './stop.ts'
import { noteMessage, toldMessage } from './told.ts'
import { replyMessage } from './typed-message.ts'

/** Puts a notice into words from what the chart says now. */
export function messageOf(told: Told, card: SetUpCard): Message {
  const { notice, team, chart } = told
  if (notice.kind === 'list') return listMessage(told.list, notice.about ?? '', team)
  if (!chart) throw new Error(`${notice.key} is about no chart`)
  const entry = chart.entries.find((e) => e.id === notice.about)
  const of = entry && 'escalation' in entry ? entry.escalation : entry?.id
  const escalation = chart.escalations.find((e) => e.id === of)
  const to = 'person' in notice.to ? notice.to.person : ''
  switch (notice.kind) {
    case 'prompt':
      return promptMessage()
    case 'reminder':
      return reminderMessage()
    case 'prescription':
      return entry?.kind === 'prescription' ? prescriptionMessage(entry, { chart, team, card }) : gone
    case 'stop':
      return escalation ? stopMessage(chart, escalation, entry?.kind === 'call-made', team) : gone
    case 'support':
      return supportMessage(team)
    case 'reply':
      return replyMessage(chart, entry, team)
    case 'call':
      return escalation ? callMessage(chart, escalation, { to, entry }, team) : gone
    case 'call-news':
      return escalation ? callNewsMessage(chart, escalation, { to, entry }, team) : gone
    case 'told':
      return toldMessage(chart, entry, team)
    case 'note':
      return noteMessage(chart, entry, to, team)
    case 'cleared':
      return clearedMessage(clearedLine(chart, team, told.now))
    default:
      return notice.kind satisfies never
  }
}

/** What travels with a message so that it can be found again: any app in the workspace may read it, so it says nothing. */
export function opaque(key: string): string {
  return createHash('sha256').update(key).digest('base64url').slice(0, 22)
}

const gone: Message = {
  text: 'This has been withdrawn.',
  blocks: [section('This has been withdrawn. Please ask your care team.')],
}
