import chromium from '@sparticuz/chromium'
import { type Browser, chromium as driver } from 'playwright-core'

/** A headless browser that comes out of the package registry: nothing else has to be installed. */
export async function openBrowser(): Promise<Browser> {
  return driver.launch({
    executablePath: await chromium.executablePath(),
    args: [...chromium.args, '--no-sandbox', '--disable-background-networking', '--disable-component-update'],
    headless: true,
  })
}
