import { parseArgs } from 'node:util'
import { manifestFor } from '../slack/manifest.ts'

/** `manifest [--prefix tw] [--host bot.example]`: the app manifest that opens exactly the doors of the code. */
export async function run(argv: readonly string[], out: (line: string) => void): Promise<number> {
  const { values } = parseArgs({
    args: [...argv],
    options: {
      prefix: { type: 'string', default: '' },
      host: { type: 'string', default: 'your-host.example' },
    },
  })
  if (!/^([a-z0-9]{1,12})?$/.test(values.prefix)) {
    out('--prefix takes up to 12 small letters and digits, such as tw')
    return 2
  }
  if (!/^[a-z0-9.-]+(:\d+)?$/i.test(values.host)) {
    out('--host takes the name under which the bot is reached, such as bot.example')
    return 2
  }
  out(JSON.stringify(manifestFor(values), null, 2))
  return 0
}
