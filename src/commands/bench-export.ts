import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { plusDays } from '../chart/day.ts'
import type { Entry } from '../chart/entries.ts'
import { Ladder } from '../chart/ladder.ts'
import { clinicSubject } from '../chart/roster.ts'
import { lowdbStore } from '../stores/lowdb.ts'
import { run as runExport } from './export.ts'

const options = {
  athletes: { type: 'string', default: '1000' },
  days: { type: 'string', default: '90' },
  as: { type: 'string', default: 'csv' },
} as const
const megabyte = 1024 * 1024

/** How long the export of a whole clinic takes, and how much memory it holds: invented charts of a season. */
export async function run(argv: readonly string[], out: (line: string) => void): Promise<number> {
  const { values } = parseArgs({ args: [...argv], options })
  const folder = mkdtempSync(join(tmpdir(), 'sanderling-bench-'))
  try {
    const filled = await fill(join(folder, 'data'), Number(values.athletes), Number(values.days))
    out(`${values.athletes} athletes, ${filled.entries} entries, ${mb(filled.bytes)} MB of charts`)
    const most = { heapUsed: 0, rss: 0 }
    const look = () => {
      const { heapUsed, rss } = process.memoryUsage()
      most.heapUsed = Math.max(most.heapUsed, heapUsed)
      most.rss = Math.max(most.rss, rss)
    }
    const looking = setInterval(look, 20)
    const began = performance.now()
    const to = [
      '--as',
      values.as,
      '--out',
      join(folder, 'out'),
      '--data',
      join(folder, 'data'),
      '--by',
      'lead',
    ]
    const code = await runExport(['--every', ...to], out)
    const seconds = (performance.now() - began) / 1000
    clearInterval(looking)
    out(`${seconds.toFixed(1)} s, ${(Number(values.athletes) / seconds).toFixed(0)} athletes a second`)
    out(`heap at most ${mb(most.heapUsed)} MB, resident at most ${mb(most.rss)} MB`)
    return code
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

async function fill(
  folder: string,
  athletes: number,
  days: number,
): Promise<{ entries: number; bytes: number }> {
  const store = await lowdbStore(folder)
  const ladder = Ladder.parse(
    JSON.parse(readFileSync('shared/protocols/tibial-stress-reaction-lbpp.json', 'utf8')),
  )
  const commit = { notices: [], atLength: 0, dueAt: null, open: true }
  const person = {
    id: 'lead',
    name: 'Lead',
    roles: ['clinic-lead'],
    chatUser: 'U0',
    timeZone: 'UTC',
    active: true,
  }
  const named = {
    id: 'person/1',
    author: 'lead',
    recordedAt: `${first}T00:00:00.000Z`,
    kind: 'person',
    person,
  }
  await store.commit({ ...commit, subject: clinicSubject, entries: [named] })
  let entries = 0
  let bytes = 0
  for (let n = 1; n <= athletes; n += 1) {
    const subject = `athlete-${n}`
    const season = seasonOf(subject, ladder, days)
    entries += season.length
    bytes += Buffer.byteLength(JSON.stringify(season))
    await store.commit({ ...commit, subject, entries: season })
  }
  await store.close()
  return { entries, bytes }
}

const first = '2026-01-05'

/** Every morning answered and prescribed for, every second day run. */
function seasonOf(athlete: string, ladder: Ladder, days: number): readonly Entry[] {
  const signed = (id: string, day: string) => ({
    id,
    athlete,
    author: 'lead',
    recordedAt: `${day}T07:00:00.000Z`,
  })
  const ceiling = { bodyWeightPct: 100, speedMps: 3.6, runMinutes: 25 }
  const because = [
    {
      finding: 'settled',
      words: 'No more pain in the run or in the 24 hours after.',
      source: 'vincent-2022',
    },
  ]
  const dose = { on: 'lbpp-treadmill' as const, warmUpMinutes: 5, coolDownMinutes: 5 }
  const bout = { gait: 'run' as const, bodyWeightPct: 60, inclinePct: 0 }
  const both = (value: number) => ({ low: value, high: value })
  const head: Entry[] = [
    {
      ...signed(`enrolment/${athlete}/1`, first),
      kind: 'enrolment',
      timeZone: 'UTC',
      promptAt: '06:30',
      therapist: 'lead',
      coaches: [],
      consentToCoach: false,
      precautions: [],
    },
    {
      ...signed(`episode/${athlete}/1`, first),
      kind: 'episode',
      diagnosis: 'tibial stress reaction',
      tissue: 'bone',
      site: 'tibia',
      side: 'left',
      onsetDay: first,
    },
    {
      ...signed(`plan-signed/${athlete}/1`, first),
      kind: 'plan-signed',
      ladder,
      startRung: 1,
      days: ['mon'],
      ceiling,
    },
    {
      ...signed(`clearance/${athlete}/1`, first),
      kind: 'clearance',
      state: 'unloaded running',
      ceiling,
      until: plusDays(first, days),
    },
  ]
  return Array.from({ length: days }, (_, n) => plusDays(first, n)).reduce<Entry[]>((season, day, n) => {
    const about = `prescription/${athlete}/${day}`
    const runs = n % 2 === 0
    season.push(
      {
        ...signed(`check-in/${athlete}/${day}`, day),
        kind: 'check-in',
        day,
        worstPain: n % 3,
        morningPain: 0,
        swelling: 'no',
        signs: { always: [], bone: [] },
        note: 'Slept well, stairs are fine, nothing new since yesterday.',
      },
      {
        ...signed(about, day),
        kind: 'prescription',
        day,
        about: `check-in/${athlete}/${day}`,
        move: 'repeat',
        rung: 2,
        ladder: `${ladder.id}@1`,
        what: runs ? 'run' : 'exercise',
        because,
        ...(runs
          ? {
              dose: {
                ...dose,
                bouts: [{ ...bout, speedMps: both(2.5), repeats: both(5), minutes: both(2) }],
              },
            }
          : {}),
      },
    )
    if (runs)
      season.push({
        ...signed(`session/${athlete}/${day}`, day),
        kind: 'session-done',
        day,
        about,
        rung: 2,
        bouts: [{ ...bout, speedMps: 2.5, minutes: 2, repeats: 5 }],
        painBefore: 0,
        painDuring: 0,
        painAfter: 0,
        rpe: 3,
      })
    return season
  }, head)
}

function mb(bytes: number): string {
  return (bytes / megabyte).toFixed(0)
}
