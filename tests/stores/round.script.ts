// One machine of several that share a database: makes rounds and sends, as the bot does.
// Arguments: database, where the workspace answers, the instant that its clock shows, and where it dies, if it does.
import { WebClient } from '@slack/web-api'
import { openDesk } from '../../src/desk/desk.ts'
import { openLibrary } from '../../src/desk/library.ts'
import { emptyOutbox } from '../../src/desk/outbox.ts'
import { makeRounds } from '../../src/desk/rounds.ts'
import { slackFace } from '../../src/slack/face.ts'
import { postgresStore } from '../../src/stores/postgres.ts'

const [url = '', slackApiUrl = '', now = '', dies = ''] = process.argv.slice(2)
const library = openLibrary('shared')
const store = await postgresStore(url)
const client = new WebClient('xoxb-test', {
  slackApiUrl,
  retryConfig: { retries: 0 },
  rejectRateLimitedCalls: true,
})
let visits = 0
const face = slackFace(client, library.setUpCard)
const desk = openDesk({
  store: {
    ...store,
    commit: async (commit) => {
      const outcome = await store.commit(commit)
      visits += 1
      if (dies === 'in its round' && visits === 3) process.kill(process.pid, 'SIGKILL')
      return outcome
    },
  },
  face: {
    ...face,
    deliver: async (told) => {
      const delivery = await face.deliver(told)
      if (dies === 'in a delivery') process.kill(process.pid, 'SIGKILL')
      return delivery
    },
  },
  clock: { now: () => now },
  library,
  clinic: library.clinic,
  report: () => {},
})
process.stdout.write('ready\n')
await new Promise((resolve) => process.stdin.once('data', resolve))
await makeRounds(desk)
await emptyOutbox(desk)
await store.close()
process.exit(0)
