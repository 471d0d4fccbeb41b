import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pino } from 'pino'
import { expect, test } from 'vitest'
import { startBot } from '../../src/main.ts'
import { pushedClock } from '../../src/rehearsal/clock.ts'
import { openWorkspace } from '../../src/rehearsal/workspace.ts'
import { signingSecret } from './clinic.ts'

test('where a name is taken, every command answers under its prefix and says so in what it writes', async () => {
  const clock = pushedClock('2026-03-16T09:00:00.000Z')
  const botToken = 'xoxb-test'
  const workspace = await openWorkspace({ signingSecret, botToken, clock })
  workspace.people.add({ id: 'U1LEAD', name: 'Sunniva Dray', timeZone: 'Europe/Lisbon' })
  const dataFolder = mkdtempSync(join(tmpdir(), 'sanderling-prefix-'))
  const bot = await startBot(
    {
      botToken,
      signingSecret,
      port: 0,
      host: '127.0.0.1',
      dataFolder,
      sharedFolder: 'shared',
      commandPrefix: 'tw',
    },
    { clock, log: pino({ level: 'silent' }), apiUrl: workspace.apiUrl, wakeUp: false },
  )
  workspace.deliverTo({ http: `http://127.0.0.1:${bot.port}/slack/events` })
  try {
    const lead = workspace.as('U1LEAD')
    expect((await lead.command('/tw-chart')).reply?.text).toContain('/tw-cover')
    await lead.command('/tw-cover')
    await workspace.quiet(() => bot.idle())
    expect(lead.modal()?.title).toBe('Set up')
    const unknown = await lead.command('/cover')
    expect(unknown.reply?.text, 'the bare name is not ours').not.toContain('Set up')
  } finally {
    await bot.stop()
    await workspace.close()
    rmSync(dataFolder, { recursive: true, force: true })
  }
})
