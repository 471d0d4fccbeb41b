import type { Page as Tab } from 'playwright-core'
import { expect } from 'vitest'

/** How somebody gets at the page: with a mouse, or with the keys alone. */
export type Hands = {
  press(button: string): Promise<void>
  actAs(name: string): Promise<void>
  /** Answers one question of the form in front: a menu by option, choices by their words. */
  choose(question: string, answer: string): Promise<void>
  tick(group: string, choice: string): Promise<void>
  write(question: string, words: string): Promise<void>
}

export function mouse(tab: Tab): Hands {
  const question = (words: string) => tab.getByRole('dialog').getByLabel(words)
  return {
    press: (button) => tab.getByRole('button', { name: button, exact: true }).last().click(),
    actAs: async (name) => {
      await Promise.all([
        tab.waitForEvent('load'),
        tab.getByRole('link', { name, exact: true }).last().click(),
      ])
    },
    choose: async (words, option) => void (await question(words).selectOption({ label: option })),
    tick: (group, choice) => boxIn(tab, group, choice).click(),
    write: (words, text) => question(words).fill(text),
  }
}

/** Tab, Enter, Space, arrows and letters; never a click. */
export function keys(tab: Tab): Hands {
  const on = async (wanted: string) => {
    for (let steps = 0; steps < 200; steps += 1) {
      if (await tab.evaluate(wanted)) return
      await tab.keyboard.press('Tab')
    }
    throw new Error(`the Tab key never comes to: ${wanted}`)
  }
  const here = 'document.activeElement'
  const q = (words: string) => JSON.stringify(words)
  return {
    async press(button) {
      await on(
        `${here}.tagName === 'BUTTON' && ${here}.textContent.trim() === ${q(button)} && ${here}.tabIndex === 0`,
      )
      await tab.keyboard.press('Enter')
    },
    async actAs(name) {
      await on(`${here}.tagName === 'A' && ${here}.textContent.trim() === ${q(name)}`)
      await Promise.all([tab.waitForEvent('load'), tab.keyboard.press('Enter')])
    },
    async choose(words, option) {
      await on(`${here}.labels?.[0]?.textContent.includes(${q(words)}) ?? false`)
      await tab.keyboard.type(option)
    },
    async tick(group, choice) {
      const inGroup = `${here}.closest('fieldset')?.querySelector('legend').textContent.includes(${q(group)})`
      await on(`${inGroup} ?? false`)
      const wanted = `${here}.labels?.[0]?.textContent.trim().startsWith(${q(choice)})`
      for (let steps = 0; !(await tab.evaluate(wanted)) && steps < 20; steps += 1)
        await tab.keyboard.press((await tab.evaluate(`${here}.type`)) === 'radio' ? 'ArrowDown' : 'Tab')
      expect(await tab.evaluate(wanted)).toBe(true)
      if (!(await tab.evaluate(`${here}.checked`))) await tab.keyboard.press('Space')
    },
    async write(words, text) {
      await on(`${here}.labels?.[0]?.textContent.includes(${q(words)}) ?? false`)
      await tab.keyboard.type(text)
    },
  }
}

function boxIn(tab: Tab, group: string, choice: string) {
  return tab
    .getByRole('group', { name: group })
    .getByLabel(new RegExp(`^\\s*${choice}`))
    .first()
}
