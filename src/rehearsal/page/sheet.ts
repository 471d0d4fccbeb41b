import { html, raw } from 'hono/html'
import { wallTimeAt } from '../../chart/day.ts'
import { cast, player } from '../cast.ts'
import { clinicZone } from '../first-day.ts'
import type { Ringing, Stage } from '../stage.ts'
import { blocksOf } from './blocks.ts'
import { formInFront, questionInFront } from './dialog.ts'
import type { Piece } from './mark-up.ts'
import { doings, notes } from './message.ts'
import { type Reader, readerAt, roomsOf, timeInWords } from './reader.ts'
import { unseen, type Visits } from './visits.ts'

export type Shown = {
  readonly stage: Stage
  readonly visits: Visits
  readonly who: string
  readonly ringing: readonly Ringing[]
  /** When the bot next does something by itself. */
  readonly next: string | null
}

const roles = {
  athlete: 'athlete',
  coach: 'coach',
  'strength-coach': 'strength coach',
  therapist: 'therapist',
  'clinic-lead': 'clinic lead',
} as const

/** The whole page as one person sees it. Parts that change by themselves carry `data-part`. */
export function sheet({ stage, visits, who, ringing, next }: Shown): Piece {
  const reader = readerAt(stage, who)
  const { name, role } = player(who)
  return page(
    `${name} (${roles[role]})`,
    html`<a class="skip" href="#person">To the messages</a>
      <header>
        <h1>The clinic, rehearsed</h1>
        <p class="aside">The real bot, an invented clinic, nobody behind it. Nothing leaves this machine.</p>
        <div id="clock" data-part>${clock(stage, who, next)}</div>
      </header>
      <section class="ringing" aria-labelledby="ringing-title">
        <h2 id="ringing-title">Ringing now</h2>
        <div id="ringing" data-part aria-live="assertive">${ringingNow(ringing)}</div>
      </section>
      <nav aria-label="Act as"><div id="people" data-part>${people(stage, visits, who, ringing)}</div></nav>
      <main>
        <h2 id="person" tabindex="-1">${name}<span class="aside">, ${roles[role]}</span></h2>
        <p id="said" data-part role="status">${saidNow(stage, visits, who)}</p>
        <form method="post" action="/as/${who}/write" class="write">
          <label for="write">Type a command (such as /today) or a message</label>
          <input id="write" name="text" autocomplete="off" autocapitalize="off" spellcheck="false" />
          <button class="primary" id="write-send">Send</button>
        </form>
        <div class="columns">
          <section aria-labelledby="direct-title">
            <h3 id="direct-title">Messages with the bot</h3>
            <div id="direct" data-part>${notes(reader, stage.as(who).messages())}</div>
          </section>
          <div id="beside" data-part>${beside(reader)}</div>
        </div>
      </main>
      <div id="fronts" data-part>${fronts(reader, visits)}</div>`,
  )
}

/** A page that says one thing, for an address that leads nowhere. */
export function bare(words: string): Piece {
  return page(
    'Nothing here',
    html`<main><h1>The clinic, rehearsed</h1><p>${words}</p><p><a href="/">Begin</a></p></main>`,
  )
}

/** Where one begins: whom to act as. */
export function front(): Piece {
  return page(
    'Whom to act as',
    html`<main>
      <h1>The clinic, rehearsed</h1>
      <p>
        The real bot works in an invented clinic; you are everybody else in it. Choose whom to act as, and come back for
        another at any time. The clock stands still until you push it.
      </p>
      <ul class="cast">
        ${cast.map(({ id, name, role }) => html`<li><a href="/as/${id}">${name}</a>, ${roles[role]}</li>`)}
      </ul>
    </main>`,
  )
}

function page(title: string, body: Piece): Piece {
  return html`${raw('<!doctype html>')}
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <title>${title}: rehearsal</title>
        <link rel="stylesheet" href="/assets/page.css" />
        <link rel="icon" href="data:," />
        <script type="module" src="/assets/page.js"></script>
      </head>
      <body>
        ${body}
      </body>
    </html>`
}

/** What came of the last deed, and how much has changed since this person last looked. */
function saidNow(stage: Stage, visits: Visits, who: string): string {
  const visit = visits.of(who)
  const number = unseen(stage, who, visit)
  return `${visit.said} ${number === 0 ? '' : `${number} new or changed below.`}`.trim()
}

function clock({ clock, workspace }: Stage, who: string, next: string | null): Piece {
  const push = (to: string, words: string) =>
    html`<button name="to" value="${to}" class="plain" id="clock-${to.replace(/\W/g, '')}">${words}</button>`
  const failing = workspace.faults.failing()
  return html`<p class="now">It is <strong>${timeInWords(clock.now(), clinicZone)}</strong> at the clinic.
      ${next && html`<span class="aside">The bot next does something at ${timeInWords(next, clinicZone)}.</span>`}
    </p>
    <div>
      <form method="post" action="/as/${who}/clock" aria-label="Push the clock" class="doings">
        ${push('next', 'To what comes next')} ${push('+15m', '15 min on')} ${push('+1h', '1 h on')}
        ${push('tomorrow 06:30', 'Tomorrow 06:30')}
      </form>
      <form method="post" action="/as/${who}/outage">
        <input type="hidden" name="on" value="${failing ? 'no' : 'yes'}" />
        <button class="plain" id="outage">${failing ? 'End the outage' : 'Begin an outage'}</button>
      </form>
    </div>
    ${failing && html`<p><strong>The chat platform fails.</strong> The bot cannot reach anybody.</p>`}`
}

function ringingNow(ringing: readonly Ringing[]): Piece {
  if (ringing.length === 0) return html`<p>Nobody is being called.</p>`
  const time = (at: string) => wallTimeAt(at, clinicZone)
  return html`<ul>
    ${ringing.map(
      ({ person, since, ackBy }) => html`<li>
        <a href="/as/${person}"><strong>${player(person).name}</strong></a> is being called since ${time(since)}. Without
        an answer by ${time(ackBy)} the next is called.
      </li>`,
    )}
  </ul>`
}

function people(stage: Stage, visits: Visits, who: string, ringing: readonly Ringing[]): Piece {
  return html`<ul class="cast">
    ${cast.map(({ id, name, role }) => {
      const number = id === who ? 0 : unseen(stage, id, visits.of(id))
      const called = ringing.some(({ person }) => person === id)
      const words = [...(called ? ['being called'] : []), ...(number > 0 ? [`${number} new`] : [])].join(', ')
      return html`<li>
        <a href="/as/${id}" id="as-${id}" ${id === who && html`aria-current="page"`}>${name}</a>
        <span class="aside">${roles[role]}${words && html`, <strong>${words}</strong>`}</span>
      </li>`
    })}
  </ul>`
}

function beside(reader: Reader): Piece {
  const { stage, who } = reader
  const person = stage.as(who)
  const home = person.home()
  const surface = { key: 'home', fields: { place: 'home' } }
  return html`${roomsOf(reader).map(
    ({ id, name }) => html`<section aria-labelledby="room-${id}">
        <h3 id="room-${id}">Channel ${name}</h3>
        ${notes(reader, person.messages(id))}
      </section>`,
  )}
    <section aria-labelledby="home-title">
      <h3 id="home-title">Home</h3>
      <form method="post" action="/as/${who}/home"><button class="plain" id="home-open">Open Home</button></form>
      ${home && blocksOf(reader, home.blocks, (block) => doings(reader, surface, block))}
    </section>`
}

function fronts(reader: Reader, visits: Visits): Piece {
  const screen = reader.stage.as(reader.who).modal()
  const { asking, said } = visits.of(reader.who)
  return html`${screen && formInFront(reader, screen, said)} ${asking && questionInFront(reader, asking.question)}`
}
