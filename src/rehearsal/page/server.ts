import { readFileSync } from 'node:fs'
import type { AddressInfo } from 'node:net'
import { createAdaptorServer } from '@hono/node-server'
import { Hono } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { csrf } from 'hono/csrf'
import { secureHeaders } from 'hono/secure-headers'
import { streamSSE } from 'hono/streaming'
import { cast } from '../cast.ts'
import type { Turns } from '../turns.ts'
import { deeds, did, type Posted } from './deeds.ts'
import { bare, front, sheet } from './sheet.ts'
import { marksOf, openVisits } from './visits.ts'

export type Page = { readonly url: string; close(): Promise<void> }

const assets = { 'page.css': 'text/css; charset=utf-8', 'page.js': 'text/javascript; charset=utf-8' } as const
const pictures: Record<string, string> = {
  png: 'image/png',
  jpg: 'image/jpeg',
  jpeg: 'image/jpeg',
  gif: 'image/gif',
}

const loopback = new Set(['127.0.0.1', 'localhost', '::1', '[::1]'])
export const isLoopback = (host: string) => loopback.has(host)

/**
 * Serves the rehearsal as a page. Whoever reaches it can act as anybody, so it listens on loopback, answers to a
 * loopback name only, and takes nothing that another page posts. Throws with words for any other host.
 */
export async function openPage(turns: Turns, { host = '127.0.0.1', port = 0 } = {}): Promise<Page> {
  if (!isLoopback(host)) throw new Error(`The page is served on loopback only, never on ${host}.`)
  const server = createAdaptorServer({ fetch: pageOf(turns).fetch })
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject)
    server.listen(port, host, resolve)
  })
  const { port: taken } = server.address() as AddressInfo
  return {
    url: `http://${host.includes(':') ? `[${host}]` : host}:${taken}/`,
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve())
        if ('closeAllConnections' in server) server.closeAllConnections()
      }),
  }
}

function pageOf(turns: Turns): Hono {
  const { stage } = turns
  const visits = openVisits()
  const app = new Hono()
  app.use(async (c, next) => {
    const { hostname } = new URL(c.req.url)
    if (!isLoopback(hostname)) return c.text('Only for this machine.', 403)
    return next()
  })
  app.use(
    secureHeaders({ contentSecurityPolicy, strictTransportSecurity: false, referrerPolicy: 'same-origin' }),
  )
  app.use(csrf())
  app.use(bodyLimit({ maxSize: 200_000 }))

  app.get('/', (c) => c.html(front()))
  for (const [name, type] of Object.entries(assets)) {
    const body = readFileSync(new URL(`assets/${name}`, import.meta.url))
    app.get(`/assets/${name}`, (c) =>
      c.body(body, 200, { 'content-type': type, 'cache-control': 'no-cache' }),
    )
  }

  app.use('/as/:who/*', async (c, next) => {
    if (!cast.some(({ id }) => id === c.req.param('who')))
      return c.html(bare('Nobody here is called so.'), 404)
    return next()
  })
  app.get('/as/:who', async (c) => {
    const who = c.req.param('who')
    const visit = visits.of(who)
    const { bot } = stage
    const shown = sheet({ stage, visits, who, ringing: await bot.ringing(), next: await bot.nextWake() })
    visit.seen = marksOf(stage, who)
    return c.html(shown)
  })
  app.post('/as/:who/:deed', async (c) => {
    const { who, deed } = c.req.param()
    if (!Object.hasOwn(deeds, deed)) return c.html(bare('That cannot be done here.'), 404)
    const form = new URLSearchParams(await c.req.text())
    const posted: Posted = { stage, who, visit: visits.of(who), form }
    await turns.take(() => did(deed, posted))
    return c.redirect(`/as/${who}`, 303)
  })

  app.get('/picture/:id', (c) => {
    const file = stage.workspace.files.find(c.req.param('id'))
    if (!file?.bytes) return c.html(bare('That picture is gone.'), 404)
    const type = pictures[file.name.split('.').at(-1)?.toLowerCase() ?? ''] ?? 'application/octet-stream'
    return c.body(new Uint8Array(file.bytes), 200, { 'content-type': type })
  })
  app.get('/news', (c) =>
    streamSSE(c, async (stream) => {
      await new Promise<void>((resolve) => {
        const stop = turns.whenTaken(() => void stream.writeSSE({ event: 'turn', data: stage.clock.now() }))
        stream.onAbort(() => {
          stop()
          resolve()
        })
      })
    }),
  )
  app.notFound((c) => c.html(bare('There is no such page here.'), 404))
  return app
}

const contentSecurityPolicy = {
  defaultSrc: ["'none'"],
  scriptSrc: ["'self'"],
  styleSrc: ["'self'"],
  imgSrc: ["'self'", 'data:'],
  connectSrc: ["'self'"],
  formAction: ["'self'"],
  baseUri: ["'none'"],
  frameAncestors: ["'none'"],
}
