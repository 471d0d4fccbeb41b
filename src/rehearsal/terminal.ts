import { dayAt, wallTimeAt, weekdayOf } from '../chart/day.ts'
import { cast, coachesChannel } from './cast.ts'
import { clinicZone } from './first-day.ts'
import { pushesInWords, pushTarget } from './pushes.ts'
import { saysWhatIsWrong } from './saying.ts'
import type { Stage } from './stage.ts'
import { standing, types, verbs } from './terminal-verbs.ts'
import type { Turns } from './turns.ts'

/** One line typed at the terminal: done, and answered with lines. Undefined: the rehearsal is to end. */
export type Terminal = (line: string) => Promise<readonly string[] | undefined>

const quiet = new Set(['see', 'fill', 'tick', 'untick'])

export function openTerminal(turns: Turns): Terminal {
  const { stage } = turns
  const acted = async (who: string, verb: string, words: readonly string[]): Promise<readonly string[]> => {
    const deed = verb.startsWith('/')
      ? () => types(stage, who, [verb, ...words])
      : () => verbs[verb]?.(stage, who, words)
    const before = seenBy(stage, who)
    const said = await turns.take(() => inWords(async () => (await deed()) ?? []))
    if ('refused' in said) return [said.refused]
    if (quiet.has(verb)) return said.lines
    const lines = [...said.lines, ...(verb === 'home' ? [] : standing(stage, who))]
    return lines.length === 0 && seenBy(stage, who) === before ? ['  Nothing new to see.'] : lines
  }
  return async (line) => {
    const [first = '', second = '', ...rest] = wordsIn(line)
    const one = cast.find(({ id }) => id === first.toLowerCase())
    if (one && second === '') return acted(one.id, 'see', [])
    if (one && (second.startsWith('/') || Object.hasOwn(verbs, second))) return acted(one.id, second, rest)
    if (one) return [`${one.id} can: /COMMAND, ${Object.keys(verbs).join(', ')}. Say "help" for examples.`]
    switch (first.toLowerCase()) {
      case '':
        return []
      case 'clock':
        return pushed(turns, [second, ...rest].join(' ').trim())
      case 'outage':
        return outage(turns, second)
      case 'ringing':
        return ringingLines(stage)
      case 'help':
        return help
      case 'quit':
        return undefined
      default:
        return [`Begin with ${cast.map(({ id }) => id).join(', ')}, clock, outage, ringing, help or quit.`]
    }
  }
}

export function clockLine({ clock }: Stage): string {
  const now = clock.now()
  const day = dayAt(now, clinicZone)
  return `The clock stands at ${weekdayOf(day)} ${day} ${wallTimeAt(now, clinicZone)} in Lisbon.`
}

export const help: readonly string[] = [
  'Act as one of these, by the first name:',
  ...cast.map(({ id, name, role }) => `  ${id.padEnd(8)} ${name}, ${role.replace('-', ' ')}`),
  'What they can do:',
  '  mika /checkin                       types a command',
  '  mika see                            the newest messages and the open form',
  `  noor see ${coachesChannel.name}             the channel of the coaches`,
  '  mika press "Check in"               presses a button (yes or no after it when it asks)',
  '  mika choose "Show" "Adaeze Quill"   chooses in a menu',
  '  mika fill "Worst pain..." 2         fills a field, named by its label or how that begins',
  '  mika tick "Any of these..." "None"  ticks boxes; untick takes ticks away',
  '  mika submit, mika close             sends or leaves the form',
  '  mika say I feel fine, mika home     writes a message; opens Home',
  `clock ${pushesInWords}: pushes the clock; clock alone says the time`,
  'outage on, outage off: the chat platform fails; ringing: calls nobody has answered; help; quit',
]

async function pushed({ take, stage }: Turns, words: string): Promise<readonly string[]> {
  const push = async () => {
    if (words !== '') await stage.advanceTo(await pushTarget(words, stage))
    return [clockLine(stage), ...(await ringingLines(stage))]
  }
  const said = await take(() => inWords(push))
  return 'refused' in said ? [said.refused] : said.lines
}

async function outage(turns: Turns, word: string): Promise<readonly string[]> {
  if (word !== 'on' && word !== 'off') return ['Say "outage on" or "outage off".']
  await turns.take(async () => turns.stage.workspace.faults.outage(word === 'on'))
  return [word === 'on' ? 'The chat platform fails from now on.' : 'The chat platform answers again.']
}

async function ringingLines({ bot }: Stage): Promise<string[]> {
  return (await bot.ringing()).map(({ person, since, ackBy }) => {
    const time = (at: string) => wallTimeAt(at, clinicZone)
    return `Ringing: ${person}, called at ${time(since)}; without an answer by ${time(ackBy)} the next is called.`
  })
}

/** What is wrong with an input is said in one line; anything else that breaks is a bug and goes on up. */
async function inWords(
  deed: () => Promise<string[]>,
): Promise<{ readonly lines: string[] } | { readonly refused: string }> {
  try {
    return { lines: await deed() }
  } catch (error) {
    if (!saysWhatIsWrong(error)) throw error
    return { refused: error.message.split('\n').join(' ') }
  }
}

/** Changes when this person sees something new or changed. */
function seenBy(stage: Stage, who: string): string {
  return JSON.stringify(
    stage
      .as(who)
      .messages()
      .map((message) => [message.ts, message.edited?.ts]),
  )
}

function wordsIn(line: string): string[] {
  const plain = line.replace(/[“”]/g, '"')
  return [...plain.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, bare]) => quoted ?? bare ?? '')
}
