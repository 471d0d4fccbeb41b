import type { AllMiddlewareArgs, SlackCommandMiddlewareArgs } from '@slack/bolt'
import { prescriptionOf } from '../chart/chart.ts'
import { dayAt } from '../chart/day.ts'
import type { Person } from '../chart/roster.ts'
import { clearedLines } from '../desk/desk.ts'
import { may } from '../rules/permissions.ts'
import { dayToLog } from '../rules/standing.ts'
import { escaped } from './blocks.ts'
import { checkInModal } from './check-in.ts'
import { clearedAnswer } from './cleared.ts'
import { showCover } from './cover.ts'
import { callerNow, type Doorway, personAt } from './door.ts'
import { squadScreen } from './exercise-squad.ts'
import { openFounding } from './founding.ts'
import type { CommandName } from './manifest.ts'
import { onlyYou } from './only-you.ts'
import { openForm } from './opening.ts'
import { prescriptionMessage } from './prescription.ts'
import { sessionModal } from './session.ts'
import type { Command, Shown } from './shown.ts'
import { openChart, openEnrol, showWhy } from './therapist.ts'

/** What can be typed in chat. */
export const commands = {
  '/checkin': openCheckIn,
  '/today': showToday,
  '/session': openSession,
  '/cleared': showCleared,
  '/chart': openChart,
  '/enrol': openEnrol,
  '/cover': showCover,
  '/why': showWhy,
} as const satisfies Record<CommandName, Command>

export async function openCheckIn(doorway: Doorway, person: Person): Promise<Shown> {
  const { desk } = doorway
  if (!person.roles.includes('athlete'))
    return { text: 'Only athletes check in, each for themselves. Ask your athlete to.' }
  const chart = await desk.charts.read(person.id)
  if (!chart.enrolment) return { text: 'You are not enrolled yet. Please ask your therapist.' }
  const day = dayAt(desk.clock.now(), chart.enrolment.timeZone)
  return { modal: checkInModal(chart, day, await desk.team()) }
}

export async function openSession(doorway: Doorway, person: Person): Promise<Shown> {
  const { desk } = doorway
  if (!person.roles.includes('athlete') && person.roles.includes('strength-coach'))
    return { modal: await squadScreen({ doorway, person }) }
  if (!person.roles.includes('athlete'))
    return { text: `The athlete logs the run with ${doorway.typed('/session')}. Please ask them.` }
  const chart = await desk.charts.read(person.id)
  if (!chart.enrolment || !chart.plan) return { text: 'No plan is signed yet. Please ask your therapist.' }
  return { modal: sessionModal(chart, dayToLog(chart, dayAt(desk.clock.now(), chart.enrolment.timeZone))) }
}

/** Each role gets what it needs: the athlete the card, others the list of those they may see. */
async function showToday(doorway: Doorway, person: Person, said: string): Promise<Shown> {
  if (!person.roles.includes('athlete')) return showCleared(doorway, person, said)
  const { desk } = doorway
  const chart = await desk.charts.read(person.id)
  if (!chart.enrolment) return { text: 'You are not enrolled yet. Please ask your therapist.' }
  const prescription = prescriptionOf(chart, dayAt(desk.clock.now(), chart.enrolment.timeZone))
  if (chart.holds.length > 0) return { text: 'No running: on hold until your therapist lifts it.' }
  if (!prescription)
    return { text: `Nothing is prescribed yet today. Check in first with ${doorway.typed('/checkin')}.` }
  return prescriptionMessage(prescription, { chart, team: await desk.team(), card: desk.library.setUpCard })
}

async function showCleared(doorway: Doorway, person: Person, said: string): Promise<Shown> {
  const { desk } = doorway
  const team = await desk.team()
  const caller = await callerNow(doorway, person)
  const lines = await clearedLines(desk, team, (chart) => may(caller, 'see-cleared', chart))
  return { text: clearedAnswer(lines, said, doorway.typed('/cleared')) }
}

/** Acknowledges with the answer, or acknowledges and opens the form within the life of the trigger. */
export function onCommand(doorway: Doorway, command: Command) {
  return async ({
    ack,
    body,
    client,
    respond,
  }: SlackCommandMiddlewareArgs & AllMiddlewareArgs): Promise<void> => {
    const person = await personAt(doorway, body.user_id)
    const shown =
      'refused' in person && person.refused === 'nobody-yet' && command === showCover
        ? await openFounding(doorway, body.user_id)
        : 'refused' in person
          ? { text: escaped(person.words) }
          : await command(doorway, person, body.text ?? '')
    if ('modal' in shown) {
      await ack()
      await openForm(client, { trigger: body.trigger_id }, shown.modal, (words) => respond(onlyYou(words)))
    } else await ack({ response_type: 'ephemeral', ...shown })
  }
}
