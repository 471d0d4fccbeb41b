import type { WebClient } from '@slack/web-api'
import type { Chart } from '../chart/chart.ts'
import { ExportForm } from '../chart/exported.ts'
import { nameOf, type Team } from '../chart/roster.ts'
import { escaped, type Modal, modal, option, section } from './blocks.ts'
import type { Doorway } from './door.ts'
import type { Wanted } from './export-of.ts'
import { lineInput, radioFrom } from './pickers.ts'
import { OfAthlete, reads } from './reading.ts'

const words: Record<ExportForm, string> = {
  pdf: 'Progress report (PDF)',
  fhir: 'Health record for another system (HL7 FHIR R4)',
  csv: 'Tables (CSV) with their dictionary',
  ics: 'Calendar of running days and reviews',
  all: 'Everything, as one archive',
}

/** In which form the record is handed on, and for whom: both become an entry of the chart before anything leaves. */
export function exportModal(chart: Chart, team: Team): Modal {
  const about = { athlete: chart.athlete }
  return modal({ door: 'export', title: 'Hand on the record', submit: 'Make the file', about }, [
    section(
      `The record of *${escaped(nameOf(team, chart.athlete))}*. It comes to you alone, as a file in a direct message.`,
    ),
    radioFrom(
      { name: 'what', label: 'As' },
      ExportForm.options.map((form) => option(form, words[form])),
      'pdf',
    ),
    lineInput({
      name: 'for',
      label: 'For whom',
      hint: 'Such as "the surgeon". It is written down.',
      most: 200,
    }),
    radioFrom(
      { name: 'paper', label: 'Paper of the report' },
      [option('A4', 'A4'), option('LETTER', 'Letter')],
      'A4',
    ),
  ])
}

export const exportRead = reads(OfAthlete, async ({ doorway, person }, form, { athlete }) => {
  const what = ExportForm.safeParse(form.choice('what'))
  if (!what.success) return { refused: 'malformed', words: 'Choose one of these.', field: 'what' }
  const whom = form.text('for')?.trim() ?? ''
  const paper = form.choice('paper') === 'LETTER' ? 'LETTER' : 'A4'
  const wanted: Wanted = { form: what.data, reader: person.id, for: whom, paper }
  return {
    hands: [{ kind: 'exported', athlete, what: what.data, for: whom }],
    afterwards: async (chart, client) =>
      chart && handOver(doorway, chart, wanted, { client, to: person.chatUser }),
  }
})

/** Says that it is being made, makes it, and says how it ended. Who is in it stands inside the message only. */
async function handOver(
  { desk, exportOf }: Doorway,
  chart: Chart,
  wanted: Wanted,
  { client, to }: { readonly client: WebClient; readonly to: string },
): Promise<void> {
  const team = await desk.team()
  const what = `*${escaped(nameOf(team, chart.athlete))}*: ${words[wanted.form]}, for ${escaped(wanted.for)}`
  const channel = (await client.conversations.open({ users: to })).channel?.id ?? ''
  const message = (text: string, how: string) => ({ channel, text, blocks: [section(`${what}: ${how}`)] })
  // Only a courtesy: when the platform takes no message now, the file is made all the same.
  const begun = await client.chat
    .postMessage(message('The file that you asked for is being made.', 'being made.'))
    .catch(() => undefined)
  const say = (text: string, how: string) =>
    begun?.ts
      ? client.chat.update({ ...message(text, how), ts: begun.ts })
      : client.chat.postMessage(message(text, how))
  try {
    const { ending, content } = await exportOf(chart, wanted, team, desk.clock.now())
    await client.filesUploadV2({
      channel_id: channel,
      file: Buffer.from(content),
      filename: ending.includes('.') ? ending : `record.${ending}`,
      title: 'The file that you asked for',
      initial_comment: 'Your file is here.',
    })
  } catch (error) {
    await say(
      'The file could not be made.',
      'it could not be made this time, and nothing left. Please try again.',
    )
    throw error
  }
  await say('The file that you asked for is here.', 'it is in the message below.')
}
