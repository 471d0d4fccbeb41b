import { createHash } from 'node:crypto'
import type { Told } from '../desk/ports.ts'
import { clearedLine } from '../rules/cleared.ts'
import { type Message, section } from './blocks.ts'
import { callMessage, callNewsMessage, stopMessage } from './call.ts'
import { promptMessage } from './check-in.ts'
import { clearedMessage, listMessage } from './cleared.ts'
import { prescriptionMessage } from './prescription.ts'
import { noteMessage, toldMessage } from './told.ts'

/** Puts a notice into words from what the chart says now. */
export function messageOf(told: Told): Message {
  const { notice, team, chart } = told
  if (notice.kind === 'list') return listMessage(told.list, notice.about ?? '', team)
  if (!chart) throw new Error(`${notice.key} is about no chart`)
  const entry = chart.entries.find((e) => e.id === notice.about)
  const escalation = chart.escalations.find(
    (e) => notice.about === e.id || notice.about?.startsWith(`${e.id}/`),
  )
  switch (notice.kind) {
    case 'prompt':
    case 'reminder':
      return promptMessage()
    case 'prescription':
      return entry?.kind === 'prescription' ? prescriptionMessage(entry, team) : gone
    case 'stop':
    case 'support':
      return escalation ? stopMessage(chart, escalation, team) : gone
    case 'call':
      return escalation ? callMessage(chart, escalation, team) : gone
    case 'call-news':
      return escalation
        ? callNewsMessage(chart, escalation, 'person' in notice.to ? notice.to.person : '', team)
        : gone
    case 'told':
      return toldMessage(entry, team)
    case 'note':
      return noteMessage(chart, entry, team)
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
