import axe from 'axe-core'
import { pino } from 'pino'
import type { Browser, BrowserContext, Page as Tab } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { plusMinutes } from '../../../src/chart/day.ts'
import { openBrowser } from '../../../src/commands/browser.ts'
import { openFirstMorning, type Rehearsal } from '../../../src/commands/open-rehearsal.ts'
import { openPage, type Page } from '../../../src/rehearsal/page/server.ts'
import { type Turns, takeTurns } from '../../../src/rehearsal/turns.ts'
import { type Hands, keys, mouse } from './hands.ts'

let browser: Browser

beforeAll(async () => {
  browser = await openBrowser()
}, 120_000)
afterAll(() => browser?.close())

const ways = [
  { what: 'by mouse at 1280 px', viewport: { width: 1280, height: 900 }, hands: mouse },
  { what: 'by keyboard alone at 390 px', viewport: { width: 390, height: 844 }, hands: keys },
]

for (const { what, viewport, hands } of ways)
  describe(`a morning with a red flag, ${what}`, { timeout: 180_000 }, () => {
    let rehearsal: Rehearsal
    let turns: Turns
    let page: Page
    let visit: BrowserContext
    let tab: Tab
    let by: Hands
    const faults: string[] = []

    beforeAll(async () => {
      rehearsal = await openFirstMorning({ say: () => {}, log: pino({ level: 'silent' }) })
      turns = takeTurns(rehearsal.stage)
      page = await openPage(turns)
      visit = await browser.newContext({ viewport })
      tab = await visit.newPage()
      tab.setDefaultTimeout(10_000)
      tab.on('pageerror', (error) => faults.push(error.message))
      tab.on('console', (said) => said.type() === 'error' && faults.push(said.text()))
      by = hands(tab)
      await tab.goto(page.url)
    }, 120_000)
    afterAll(async () => {
      await visit.close()
      await page.close()
      await rehearsal.close()
    })

    test('whom to act as is chosen', async () => {
      await accessible(tab)
      await by.actAs('Mika Oddvar')
      await tab.getByText('Your check-in takes half a minute').waitFor()
      await accessible(tab)
    })

    test('the clock is pushed until the coaches have their list, in which the athlete is waited for', async () => {
      await by.actAs('Noor Castell')
      const list = tab.locator('#beside article').filter({ hasText: '2026-03-16' })
      for (let pushes = 0; (await list.count()) === 0 && pushes < 10; pushes += 1) {
        const stood = await tab.locator('.now strong').textContent()
        await by.press('To what comes next')
        await tab
          .locator('.now strong')
          .filter({ hasNotText: stood ?? '' })
          .waitFor()
      }
      await list.getByText('Mika Oddvar: waiting for the check-in').waitFor()
      await by.actAs('Mika Oddvar')
    })

    test('a form that lacks an answer stays, says so at the question, and keeps what was typed', async () => {
      await by.press('Check in')
      await tab.getByRole('dialog', { name: 'Check-in' }).waitFor()
      await accessible(tab)
      await by.choose('Worst pain', '0, no pain')
      await by.choose('Pain there now', '0, no pain')
      await by.press('Send')
      await tab.getByText('Not sent.').first().waitFor()
      await accessible(tab)
      expect(await tab.getByLabel('Worst pain').inputValue()).toBe('0')
      expect(await tab.getByText('Please complete this required field.').count()).toBe(3)
      expect(await tab.evaluate('document.activeElement.name')).toBe('f-swelling')
    })

    test('an athlete checks in and reads what to run', async () => {
      await by.tick('More swollen', 'No')
      await by.tick('Any of these since', 'None of these')
      await by.tick('At the bone', 'None of these')
      await by.press('Send')
      await tab.getByRole('heading', { name: 'Today: run' }).waitFor()
      expect(await tab.getByRole('dialog').count()).toBe(0)
      expect(await tab.evaluate('document.activeElement !== document.body'), 'the cursor is not lost').toBe(
        true,
      )
      await accessible(tab)
    })

    test("within a minute the coaches' list has changed with it", async () => {
      await by.actAs('Noor Castell')
      await by.press('To what comes next')
      const list = tab.locator('#beside article').filter({ hasText: '2026-03-16' })
      await list.getByText('Mika Oddvar: run: up to 50 % of body weight').waitFor()
      await list.getByText(/^changed/).waitFor()
      await accessible(tab)
    })

    test('a red flag rings at the therapist', async () => {
      await by.actAs('Adaeze Quill')
      await by.press('Check in')
      await tab.getByRole('dialog').waitFor()
      await morning(by, ['Pain in the bone', 'One sore spot'])
      await tab.getByRole('heading', { name: 'No running today' }).waitFor()
      await tab.locator('#ringing').getByText('Iben Marlow is being called').waitFor()
      await accessible(tab)
      await by.actAs('Noor Castell')
      await by.press('To what comes next')
      await tab.locator('#beside').getByText('Adaeze Quill: not cleared today.').first().waitFor()
      await tab
        .locator('#beside')
        .getByText(/changed/)
        .first()
        .waitFor()
    })

    test('in silence it goes on to the cover, who sees it come without doing anything', async () => {
      await by.actAs('Ravi Thornby')
      expect(await tab.getByRole('heading', { name: /call: Adaeze Quill/ }).count()).toBe(0)
      const later = plusMinutes(rehearsal.stage.clock.now(), 60)
      await turns.take(() => rehearsal.stage.advanceTo(later))
      await tab.locator('#ringing').getByText('Ravi Thornby is being called').waitFor()
      await tab
        .getByRole('heading', { name: /call: Adaeze Quill/ })
        .first()
        .waitFor()
      await accessible(tab)
    })

    test('it is acknowledged, stops ringing, and is closed', async () => {
      await by.press('I have this call')
      await tab.locator('#ringing').getByText('Nobody is being called').waitFor()
      await tab.getByText('Acknowledged by Ravi Thornby').first().waitFor()
      await by.press('Close with what came of it')
      await tab.getByRole('dialog', { name: 'Close the call' }).waitFor()
      await accessible(tab)
      await by.choose('Disposition', 'seen in person')
      await by.write('What was found and agreed', 'No tenderness left.')
      await by.tick('The hold on running', 'I lift it now')
      await by.press('Close')
      await tab.getByText('Sent: Close the call.').waitFor()
      await by.actAs('Iben Marlow')
      await tab.getByText('Closed by Ravi Thornby').first().waitFor()
      await accessible(tab)
    })

    test('what happens elsewhere shows by itself, and a form half filled in is not lost to it', async () => {
      await by.actAs('Joran Pell')
      await by.press('Check in')
      await by.choose('Worst pain', '3')
      await turns.take(() => rehearsal.stage.as('joran').say('from elsewhere'))
      await tab.getByText('from elsewhere').first().waitFor()
      expect(await tab.getByLabel('Worst pain').inputValue()).toBe('3')
      await tab.keyboard.press('Escape')
      await tab.getByRole('dialog').waitFor({ state: 'detached' })
    })

    test('nothing lies outside the width of the screen, and nothing broke on the way', async () => {
      const wide = 'document.documentElement.scrollWidth - document.documentElement.clientWidth'
      for (const name of ['Noor Castell', 'Ravi Thornby', 'Mika Oddvar']) {
        await by.actAs(name)
        expect(await tab.evaluate(wide)).toBe(0)
      }
      expect(faults).toEqual([])
    })
  })

async function morning(by: Hands, bone: readonly string[]): Promise<void> {
  await by.choose('Worst pain', '0, no pain')
  await by.choose('Pain there now', '0, no pain')
  await by.tick('More swollen', 'No')
  await by.tick('Any of these since', 'None of these')
  for (const sign of bone) await by.tick('At the bone', sign)
  await by.press('Send')
}

/** No fault that a checker calls serious or critical stands on the page as it is now. */
async function accessible(tab: Tab): Promise<void> {
  await tab.evaluate(axe.source)
  const found = (await tab.evaluate('axe.run()')) as {
    violations: { id: string; impact: string; nodes: { html: string }[] }[]
  }
  const serious = found.violations.filter(({ impact }) => impact === 'serious' || impact === 'critical')
  expect(serious.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([])
}
