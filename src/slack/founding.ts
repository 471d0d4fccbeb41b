import type { AllMiddlewareArgs, SlackViewMiddlewareArgs, ViewSubmitAction } from '@slack/bolt'
import type { Person } from '../chart/roster.ts'
import { modal, option, section } from './blocks.ts'
import { clinicScreen } from './clinic.ts'
import { type Doorway, handInEither } from './door.ts'
import { errorsFor, readForm } from './form.ts'
import { idFor } from './people.ts'
import { boxesFrom, lineInput } from './pickers.ts'
import type { Shown } from './shown.ts'

/** The very first form: whoever installed the bot names themselves. Possible only while the journal is empty. */
export async function openFounding({ desk, accounts }: Doorway, account: string): Promise<Shown> {
  const seen = await accounts.look(account, desk.clock.now())
  if (seen?.standing !== 'member')
    return { text: 'Only a member of this workspace can set up the clinic, no guest. Please ask one.' }
  const { clinic } = await desk.team()
  const view = modal({ door: 'found', title: 'Set up', submit: 'I am the clinic lead', about: {} }, [
    section(
      'Nobody has been named here yet. *Whoever sends this form becomes the clinic lead.* From then on only a clinic lead names people.',
    ),
    lineInput({ name: 'name', label: 'Your name', initial: seen.name, most: 80 }),
    lineInput({
      name: 'id',
      label: 'Your short name in the record',
      hint: `Small letters and digits. clinic.json names "${clinic.lastResort.person}" as the last resort.`,
      optional: true,
      most: 60,
    }),
    boxesFrom({ name: 'also', label: 'Do you also treat athletes?', optional: true }, [
      option('therapist', 'Yes, I am a therapist too'),
    ]),
    lineInput({
      name: 'timeZone',
      label: 'Your time zone',
      initial: seen.timeZone ?? clinic.timeZone,
    }),
  ])
  return { modal: view }
}

export function onFound(doorway: Doorway) {
  return async ({
    ack,
    view,
    body,
  }: SlackViewMiddlewareArgs<ViewSubmitAction> & AllMiddlewareArgs): Promise<void> => {
    const { desk, accounts } = doorway
    const form = readForm(view.state.values)
    const seen = await accounts.look(body.user.id, desk.clock.now())
    if (seen?.standing !== 'member')
      return ack(errorsFor({ refused: 'outsider', words: 'Members of this workspace only.' }, view))
    const name = form.text('name')?.trim() ?? ''
    const person: Person = {
      id: form.text('id')?.trim() || idFor(name, await desk.team()),
      name,
      roles: [
        'clinic-lead',
        ...(form.choices('also')?.includes('therapist') ? (['therapist'] as const) : []),
      ],
      chatUser: body.user.id,
      timeZone: form.text('timeZone')?.trim() ?? '',
      active: true,
    }
    // No role yet: the rule lets the first person in, and nobody after.
    const outcome = await handInEither(doorway, { ...person, roles: [] }, { kind: 'person', person })
    if ('refused' in outcome) return ack(errorsFor(outcome, view))
    await ack({ response_action: 'update', view: await clinicScreen({ doorway, person }) })
  }
}
