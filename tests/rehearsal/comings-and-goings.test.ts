import { afterEach, expect, test } from 'vitest'
import { openClient, openHttpBot, openStage, tidy } from './stage.ts'

afterEach(tidy)

test('who joins, moves, is let go or leaves a channel is told to the app with the standing afterwards', async () => {
  const stage = await openStage()
  const told: unknown[] = []
  await openHttpBot(stage, (app) => {
    app.event('team_join', async ({ event }) => {
      told.push(['joins', event.user.id, event.user.is_restricted])
    })
    app.event('user_change', async ({ event }) => {
      told.push(['changes', event.user.tz, event.user.deleted])
    })
    app.event('member_left_channel', async ({ event }) => {
      told.push(['leaves', event.user, event.channel])
    })
  })
  const { workspace } = stage
  await workspace.joins({ id: 'UGUS', name: 'Gus', timeZone: 'Europe/Paris', guest: 'restricted' })
  await workspace.changes('UADA', { timeZone: 'Asia/Tokyo' })
  await workspace.changes('UADA', { deactivated: true })
  await workspace.leaves('UBEN', 'CTEAM')
  await workspace.quiet()
  expect(told).toEqual([
    ['joins', 'UGUS', true],
    ['changes', 'Asia/Tokyo', false],
    ['changes', undefined, true],
    ['leaves', 'UBEN', 'CTEAM'],
  ])
  expect((await openClient(stage).conversations.members({ channel: 'CTEAM' })).members).toEqual([
    'UADA',
    'U0BOT',
  ])
  expect(() => workspace.leaves('UBEN', 'CTEAM')).toThrow('not in CTEAM')
})
