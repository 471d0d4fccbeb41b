import type { AllMiddlewareArgs, SlackEventMiddlewareArgs } from '@slack/bolt'
import type { HomeView, KnownBlock } from '@slack/types'
import { WebAPIPlatformError } from '@slack/web-api'
import { clearedLines } from '../desk/desk.ts'
import { caseload } from '../rules/caseload.ts'
import { may } from '../rules/permissions.ts'
import { buttons, escaped, header, section } from './blocks.ts'
import { caseRow, chartsFor } from './caseload.ts'
import { lineInWords } from './cleared.ts'
import { missingBlock } from './clinic.ts'
import { type At, callerNow, type Doorway, personAt } from './door.ts'
import { exerciseSquad } from './exercise-squad.ts'
import { athleteHome } from './home-athlete.ts'
import { homePicture } from './home-picture.ts'
import { sendWithPictures } from './picture-shelf.ts'

const mostLines = 40

/**
 * Publishes somebody's Home when they open it, never eagerly: the platform allows a hundred a minute. The words come
 * first; a picture that is not drawn yet follows, and never keeps the words waiting.
 */
export function onHome(doorway: Doorway) {
  const picture = homePicture(doorway)
  return async ({
    event,
    client,
  }: SlackEventMiddlewareArgs<'app_home_opened'> & AllMiddlewareArgs): Promise<void> => {
    if (event.tab !== 'home') return
    const person = await personAt(doorway, event.user)
    // The platform sends the hash of what is shown now; its types leave it out.
    let hash = (event.view as { readonly hash?: string } | undefined)?.hash
    const publish = async (blocks: readonly KnownBlock[]) => {
      const view: HomeView = { type: 'home', blocks: blocks.slice(0, 100) }
      const shown = await client.views.publish({ user_id: event.user, view, ...(hash ? { hash } : {}) })
      hash = (shown.view as { readonly hash?: string } | undefined)?.hash
    }
    try {
      if ('refused' in person) return await publish([section(escaped(person.words))])
      const at = { doorway, person }
      await sendWithPictures(await homeBlocks(at, await picture.known(person)), publish)
      const drawn = await picture.drawn(client, person)
      if (drawn) await sendWithPictures(await homeBlocks(at, drawn), publish)
    } catch (error) {
      // Somebody published in between, from what is newer than this.
      if (!(error instanceof WebAPIPlatformError) || error.data.error !== 'hash_conflict') throw error
    }
  }
}

async function homeBlocks(at: At, picture: KnownBlock | undefined): Promise<KnownBlock[]> {
  const { roles } = at.person
  const parts: KnownBlock[][] = []
  if (roles.includes('clinic-lead')) parts.push(await leadHome(at))
  if (roles.includes('therapist')) parts.push(await therapistHome(at))
  if (roles.includes('athlete')) parts.push(await athleteHome(at, picture))
  if (roles.includes('coach') || roles.includes('strength-coach')) parts.push(await coachHome(at))
  if (roles.includes('strength-coach')) parts.push(await exerciseSquad(at))
  return parts.flat()
}

async function coachHome({ doorway, person }: At): Promise<KnownBlock[]> {
  const team = await doorway.desk.team()
  const caller = await callerNow(doorway, person)
  const lines = await clearedLines(doorway.desk, team, (chart) => may(caller, 'see-cleared', chart))
  return [
    header('Who runs today'),
    ...(lines.length > 0
      ? lines.slice(0, mostLines).map((line) => section(lineInWords(line)))
      : [section('No athlete shares a clearance with you. Ask the treating therapist.')]),
  ]
}

async function therapistHome(at: At): Promise<KnownBlock[]> {
  const { desk } = at.doorway
  const team = await desk.team()
  const lines = caseload(await chartsFor(at, 'see-chart'), team, desk.clock.now())
  return [
    header('Your caseload'),
    ...lines.slice(0, mostLines).map((line) => caseRow(line, team)),
    buttons({ does: 'open-caseload', label: 'Whole caseload' }),
  ]
}

async function leadHome({ doorway }: At): Promise<KnownBlock[]> {
  return [
    header('The clinic'),
    missingBlock(await doorway.desk.team()),
    buttons({ does: 'open-clinic', label: 'People, roles, settings', value: '{}', main: true }),
  ]
}
