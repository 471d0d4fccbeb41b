import { mkdirSync } from 'node:fs'
import type { Page } from 'playwright-core'
import { checksIn } from '../rehearsal/acts.ts'
import { openPage } from '../rehearsal/page/server.ts'
import { takeTurns } from '../rehearsal/turns.ts'
import { openBrowser } from './browser.ts'
import { openFirstMorning } from './open-rehearsal.ts'

const folder = '.pictures'

/** Who is shown doing what, at which width. */
const pictures = [
  { name: 'athlete-check-in', who: 'mika', width: 390, height: 844, opens: 'Check in' },
  { name: 'athlete-plan', who: 'mika', width: 390, height: 1500 },
  { name: 'therapist', who: 'iben', width: 1280, height: 860 },
  { name: 'coach', who: 'noor', width: 1280, height: 860, at: '2026-03-16T08:31:00.000Z' },
] as const

/** `screenshots`: the rehearsal page as three roles see it on the first morning, for the README. */
export async function run(argv: readonly string[], out: (line: string) => void): Promise<number> {
  if (argv.length > 0) {
    process.stderr.write('screenshots takes no options.\n')
    return 2
  }
  mkdirSync(folder, { recursive: true })
  const { stage, close } = await openFirstMorning({ say: () => {} })
  const page = await openPage(takeTurns(stage))
  const browser = await openBrowser()
  try {
    const [first, ...rest] = pictures
    const tab = await browser.newPage()
    await take(tab, page.url, first, out)
    await stage.as('mika').close()
    await checksIn(stage, 'mika')
    await checksIn(stage, 'adaeze', {
      worstPain: 4,
      morningPain: 3,
      signs: { bone: ['bone-pain-at-night', 'sore-spot'] },
    })
    for (const picture of rest) {
      if ('at' in picture) await stage.advanceTo(picture.at)
      await take(tab, page.url, picture, out)
    }
    return 0
  } finally {
    await browser.close()
    await page.close()
    await close()
  }
}

async function take(tab: Page, url: string, picture: (typeof pictures)[number], out: (line: string) => void) {
  const { name, who, width, height } = picture
  await tab.setViewportSize({ width, height })
  await tab.goto(`${url}as/${who}`)
  if ('opens' in picture) {
    await tab.getByRole('button', { name: picture.opens }).click()
    await tab.getByRole('dialog').waitFor()
  }
  const path = `${folder}/${name}.png`
  await tab.screenshot({ path })
  out(path)
}
