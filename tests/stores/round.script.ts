// One machine of several that share a database: makes rounds and sends, as the bot does.
// Arguments: database, where the workspace answers, the instant that its clock shows.
import { WebClient } from '@slack/web-api'
import { openDesk } from '../../src/desk/desk.ts'
import { openLibrary } from '../../src/desk/library.ts'
import { emptyOutbox } from '../../src/desk/outbox.ts'
import { makeRounds } from '../../src/desk/rounds.ts'
import { slackFace } from '../../src/slack/face.ts'
import { postgresStore } from '../../src/stores/postgres.ts'

const [url = '', slackApiUrl = '', now = ''] = process.argv.slice(2)
const library = openLibrary('shared')
const store = await postgresStore(url)
const client = new WebClient('xoxb-test', {
  slackApiUrl,
  retryConfig: { retries: 0 },
  rejectRateLimitedCalls: true,
})
const desk = openDesk({
  store: {
    ...store,
    commit: async (commit) => {
      const outcome = await store.commit(commit)
      process.stdout.write(`${'committed' in outcome ? 'wrote' : 'was late for'} ${commit.subject}\n`)
      return outcome
    },
  },
  face: slackFace(client, library.setUpCard),
  clock: { now: () => now },
  library,
  clinic: library.clinic,
  report: () => {},
})
process.stdout.write('ready\n')
await new Promise((resolve) => process.stdin.once('data', resolve))
await makeRounds(desk)
process.stdout.write('round made\n')
await emptyOutbox(desk)
await store.close()
process.exit(0)
