import { afterEach, expect, test } from 'vitest'
import { buttons, form, plain } from './samples.ts'
import { openClient, openStage, refusalOf, tidy } from './stage.ts'

afterEach(tidy)

test('a caller without a token, with a wrong one or with the wrong kind is refused', async () => {
  const stage = await openStage()
  const client = openClient(stage)
  expect(await client.auth.test()).toMatchObject({ ok: true, user_id: 'U0BOT', bot_id: 'B0BOT' })
  expect(await refusalOf(openClient(stage, 'xoxb-other').auth.test())).toBe('invalid_auth')
  expect(await refusalOf(openClient(stage, '').users.info({ user: 'UADA' }))).toBe('not_authed')
  expect(await refusalOf(client.apps.connections.open({}))).toBe('not_allowed_token_type')
  expect(await refusalOf(client.apiCall('chat.meMessage', {}))).toBe('unknown_method')
})

test('only what was granted can be done when a list of scopes is given', async () => {
  const stage = await openStage({ scopes: ['chat:write'] })
  const client = openClient(stage)
  expect(await client.chat.postMessage({ channel: 'UADA', text: 'hello' })).toMatchObject({ ok: true })
  expect(await refusalOf(client.users.info({ user: 'UADA' }))).toBe('missing_scope')
  // Opening views needs no scope.
  expect(await refusalOf(client.views.open({ trigger_id: 'none', view: form }))).toBe('invalid_trigger_id')
})

test('posting needs a room that is there, open and joined', async () => {
  const stage = await openStage()
  const client = openClient(stage)
  stage.workspace.channels.add({ id: 'COUT', name: 'out', members: ['UADA'], bot: false })
  stage.workspace.channels.add({ id: 'CHID', name: 'hidden', members: ['UADA'], bot: false, isPrivate: true })
  stage.workspace.channels.add({ id: 'COLD', name: 'old', members: ['UADA'], archived: true })
  const post = (channel: string) => refusalOf(client.chat.postMessage({ channel, text: 'a' }))
  expect(await post('CNONE')).toBe('channel_not_found')
  expect(await post('UNONE')).toBe('channel_not_found')
  expect(await post('CHID')).toBe('channel_not_found')
  expect(await post('COUT')).toBe('not_in_channel')
  expect(await post('COLD')).toBe('is_archived')
  expect(await post('CTEAM')).toBe('not refused')
  expect(await refusalOf(client.chat.postMessage({ channel: 'CTEAM', text: '' }))).toBe('no_text')
})

test('a refused message is not posted, and the refusal says where it is wrong', async () => {
  const stage = await openStage()
  const wrong = openClient(stage).chat.postMessage({
    channel: 'CTEAM',
    text: 'a',
    blocks: [{ type: 'section', text: { type: 'mrkdwn', text: 'x'.repeat(3001) } }],
  })
  await expect(wrong).rejects.toMatchObject({
    data: {
      error: 'invalid_blocks',
      response_metadata: { messages: [expect.stringContaining('json-pointer:/blocks/0/text/text')] },
    },
  })
  expect(stage.ada.messages('CTEAM')).toEqual([])
})

test('metadata is kept with a message and given back only when it is asked for', async () => {
  const stage = await openStage()
  const client = openClient(stage)
  const metadata = { event_type: 'notice', event_payload: { key: 'call/1' } }
  await client.chat.postMessage({ channel: 'CTEAM', text: 'one', metadata })
  const read = (include_all_metadata: boolean) =>
    client.conversations.history({ channel: 'CTEAM', include_all_metadata })
  expect((await read(true)).messages?.[0]?.metadata).toEqual(metadata)
  expect((await read(false)).messages?.[0]?.metadata).toBeUndefined()
})

test('history is read newest first, within bounds, a page at a time', async () => {
  const stage = await openStage()
  const client = openClient(stage)
  const stamps: string[] = []
  for (const text of ['one', 'two', 'three']) {
    stamps.push(String((await client.chat.postMessage({ channel: 'CTEAM', text })).ts))
    stage.clock.pushBy({ seconds: 10 })
  }
  const read = async (how: object) => {
    const page = await client.conversations.history({ channel: 'CTEAM', ...how })
    const texts = page.messages?.map((m) => m.text)
    return { texts, cursor: page.response_metadata?.next_cursor, more: page.has_more }
  }
  expect((await read({})).texts).toEqual(['three', 'two', 'one'])
  expect((await read({ oldest: stamps[0] })).texts).toEqual(['three', 'two'])
  expect((await read({ oldest: stamps[0], inclusive: true, latest: stamps[1] })).texts).toEqual([
    'two',
    'one',
  ])
  const first = await read({ limit: 2 })
  expect(first).toMatchObject({ texts: ['three', 'two'], more: true })
  expect(await read({ limit: 2, cursor: first.cursor })).toMatchObject({ texts: ['one'], more: false })
  expect(stamps[1]).toBe(`${Date.parse('2026-03-02T06:30:10Z') / 1000}.000000`)
})

test('an update keeps blocks and metadata that it does not name, and only own messages can be changed', async () => {
  const stage = await openStage()
  const client = openClient(stage)
  const metadata = { event_type: 'notice', event_payload: { key: 'k' } }
  const { ts = '' } = await client.chat.postMessage({ channel: 'UADA', text: 'a', blocks: buttons, metadata })
  await client.chat.update({ channel: 'DADA', ts, text: 'b' })
  expect(stage.ada.messages()[0]).toMatchObject({ text: 'b', metadata, edited: {} })
  expect(stage.ada.messages()[0]?.blocks).toHaveLength(2)
  await client.chat.update({ channel: 'DADA', ts, text: 'c', blocks: [] })
  expect(stage.ada.messages()[0]?.blocks).toHaveLength(0)
  await stage.ada.say('mine')
  const mine = stage.ada.messages()[1]?.ts ?? ''
  expect(await refusalOf(client.chat.update({ channel: 'DADA', ts: mine, text: 'd' }))).toBe(
    'cant_update_message',
  )
  expect(await refusalOf(client.chat.delete({ channel: 'DADA', ts: mine }))).toBe('cant_delete_message')
  expect(await refusalOf(client.chat.update({ channel: 'DADA', ts: '1.1', text: 'd' }))).toBe(
    'message_not_found',
  )
  await client.chat.delete({ channel: 'DADA', ts })
  expect(stage.ada.messages().map((m) => m.text)).toEqual(['mine'])
})

test('an ephemeral message is seen by one person, stands in no history and cannot be updated', async () => {
  const stage = await openStage()
  const client = openClient(stage)
  const { message_ts: ts = '' } = await client.chat.postEphemeral({
    channel: 'CTEAM',
    user: 'UADA',
    text: 'psst',
  })
  expect(stage.ada.messages('CTEAM')).toHaveLength(1)
  expect(stage.ben.messages('CTEAM')).toHaveLength(0)
  expect((await client.conversations.history({ channel: 'CTEAM' })).messages).toEqual([])
  expect(await refusalOf(client.chat.update({ channel: 'CTEAM', ts, text: 'a' }))).toBe('message_not_found')
  const outside = client.chat.postEphemeral({ channel: 'CTEAM', user: 'UCAT', text: 'a' })
  expect(await refusalOf(outside)).toBe('user_not_in_channel')
})

test('people are described with their zone and standing; guests, strangers and people who left are told apart', async () => {
  const stage = await openStage()
  const client = openClient(stage)
  const { people } = stage.workspace
  people.add({ id: 'UGUEST', name: 'Gus', timeZone: 'Europe/Paris', guest: 'ultra-restricted' })
  people.add({ id: 'UGONE', name: 'Gil', timeZone: 'Europe/Paris', deactivated: true })
  people.add({ id: 'UOUT', name: 'Oda', timeZone: 'Europe/Paris', connectedTeam: 'TOTHER' })
  const look = async (user: string) => (await client.users.info({ user })).user
  expect(await look('UADA')).toMatchObject({ tz: 'Europe/Paris', tz_offset: 3600, is_restricted: false })
  expect(await look('UGUEST')).toMatchObject({ is_restricted: true, is_ultra_restricted: true })
  expect(await look('UGONE')).toMatchObject({ deleted: true })
  expect((await look('UGONE'))?.tz).toBeUndefined()
  expect(await look('UOUT')).toMatchObject({ is_stranger: true, team_id: 'TOTHER' })
  expect(await look('U0BOT')).toMatchObject({ is_bot: true })
  expect(await refusalOf(look('UNONE'))).toBe('user_not_found')
  expect(await refusalOf(client.conversations.open({ users: 'UGONE' }))).toBe('user_disabled')
  expect((await client.users.list({ limit: 2 })).members).toHaveLength(2)
})

test('rooms are opened, described and listed with who is in them', async () => {
  const stage = await openStage()
  const client = openClient(stage)
  stage.workspace.channels.add({ id: 'CHID', name: 'hidden', members: ['UADA'], bot: false, isPrivate: true })
  expect((await client.conversations.open({ users: 'UADA' })).channel?.id).toBe('DADA')
  expect(await client.conversations.open({ users: 'UADA' })).toMatchObject({ already_open: true })
  expect((await client.conversations.info({ channel: 'DADA' })).channel).toMatchObject({
    is_im: true,
    user: 'UADA',
  })
  const team = await client.conversations.info({ channel: 'CTEAM', include_num_members: true })
  expect(team.channel).toMatchObject({ name: 'team', is_member: true, num_members: 3 })
  expect(await refusalOf(client.conversations.info({ channel: 'CHID' }))).toBe('channel_not_found')
  expect((await client.conversations.members({ channel: 'CTEAM' })).members).toEqual([
    'UADA',
    'UBEN',
    'U0BOT',
  ])
  const { channels } = await client.conversations.list({ types: 'public_channel,private_channel,im' })
  expect(channels?.map((c) => c.id)).toEqual(['CTEAM', 'DADA'])
})

test('do-not-disturb is told on the clock of the workspace', async () => {
  const stage = await openStage()
  const client = openClient(stage)
  stage.workspace.people.change('UADA', { snoozedUntilAt: '2026-03-02T07:00:00Z' })
  expect(await client.dnd.info({ user: 'UADA' })).toMatchObject({
    snooze_enabled: true,
    snooze_remaining: 1800,
  })
  stage.clock.pushBy({ minutes: 30 })
  expect(await client.dnd.info({ user: 'UADA' })).toMatchObject({ snooze_enabled: false })
})

test('a message can be checked without posting it, and every fault is pointed at', async () => {
  const client = openClient(await openStage())
  expect(await client.apiCall('blocks.validate', { blocks: buttons })).toMatchObject({ ok: true })
  const wrong = client.apiCall('blocks.validate', {
    view: { ...form, title: plain('x'.repeat(25)), submit: undefined },
  })
  await expect(wrong).rejects.toMatchObject({
    data: {
      errors: [
        { pointer: '/title/text', code: 'too_long' },
        { pointer: '/submit', code: 'missing' },
      ],
    },
  })
})

test('every call is written down with what was asked, what came of it and when', async () => {
  const stage = await openStage()
  const client = openClient(stage)
  await client.chat.postMessage({ channel: 'UADA', text: 'a', blocks: buttons })
  await refusalOf(client.chat.postMessage({ channel: 'CNONE', text: 'a' }))
  expect(stage.workspace.calls).toMatchObject([
    {
      method: 'chat.postMessage',
      arguments: { channel: 'UADA', blocks: [{}, {}] },
      outcome: 'ok',
      lost: false,
    },
    { outcome: 'channel_not_found', at: '2026-03-02T06:30:00.000Z' },
  ])
  expect(JSON.stringify(stage.workspace.calls)).not.toContain('xoxb')
})
