import { openPage } from '../../../src/rehearsal/page/server.ts'
import type { Stage } from '../../../src/rehearsal/stage.ts'
import { takeTurns } from '../../../src/rehearsal/turns.ts'

export type Fields = readonly (readonly [string, string])[]

/** The page as a plain visitor without a script uses it: reads it, and posts what a form would. */
export async function openVisitor(stage: Stage) {
  const page = await openPage(takeTurns(stage))
  const origin = page.url.slice(0, -1)
  const look = async (who: string) => (await fetch(`${page.url}as/${who}`)).text()
  const post = async (path: string, fields: Fields, headers = {}) => {
    const body = new URLSearchParams()
    for (const [name, value] of fields) body.append(name, value)
    return fetch(`${page.url}as/${path}`, { method: 'POST', body, headers: { origin, ...headers } })
  }
  return {
    page,
    look,
    post,
    /** Posts as this person and answers with the page that comes back. */
    does: async (who: string, deed: string, fields: Fields = []) =>
      (await post(`${who}/${deed}`, fields)).text(),
    /** The hidden fields of the form in which a button with these words stands. */
    formWith(page: string, words: string): [string, string][] {
      const form = page.split('<form').find((one) => new RegExp(`>\\s*${words}\\s*</button>`).test(one)) ?? ''
      return [...form.matchAll(/type="hidden" name="([^"]*)" value="([^"]*)"/g)].map(([, n = '', v = '']) => [
        n,
        v,
      ])
    },
  }
}

export type Visitor = Awaited<ReturnType<typeof openVisitor>>
