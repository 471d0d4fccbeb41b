import type { Statement } from './postgres-connection.ts'

const say = (name: string, text: string): Statement => ({ name, text })

const moved = `with moved as (
     insert into charts as c (subject, length, last, open, due_at)
     select $1, $2::integer + cardinality($7::text[]), $3, $4, $5
     where $2::integer = 0 or exists (select from charts where subject = $1)
     on conflict (subject) do update
       set length = excluded.length, last = excluded.last, open = excluded.open, due_at = excluded.due_at
       where c.length = $2::integer and c.last = $6
     returning 1
   ), kept as (
     insert into entries (subject, seq, sealed)
     select $1, $2::integer + e.ord - 1, e.sealed
     from moved, unnest($7::text[]) with ordinality as e (sealed, ord)
   )`

const queued = `queued as (
     insert into notices (key, subject, lane, urgent, notice, surface, queued_at, not_before)
     select n.key, $1, n.lane, n.urgent, n.notice, n.surface, n.queued_at, n.not_before
     from moved,
       unnest($8::text[], $9::text[], $10::boolean[], $11::text[], $12::text[], $13::text[], $14::text[])
       with ordinality as n (key, lane, urgent, notice, surface, queued_at, not_before, ord)
     order by n.ord
     on conflict (key) do nothing
   )`

/**
 * All of a commit in one statement: it locks the chart's row, goes on only from the length and hash that the
 * decision was made on, and so can be said twice.
 */
export const commit = say('commit', `${moved}, ${queued} select 1 from moved`)

/** The same when nobody needs to be told. */
export const commitQuietly = say('commit-quietly', `${moved} select 1 from moved`)

/** A whole chart gives way to a tombstone; `erase_chart` runs as the owner and does nothing else. */
export const erase = say('erase', 'select erase_chart($1, $2::integer, $3, $4) as erased')

/** Single entries give way; `blank_entries` sees to it that the others stay as they were. */
export const blank = say('blank', 'select blank_entries($1, $2::integer, $3, $4, $5::text[], $6) as blanked')

export const head = say(
  'head',
  `select c.length, c.last, e.sealed
   from charts c left join entries e on e.subject = c.subject and e.seq = $2 where c.subject = $1`,
)

export const read = say(
  'read',
  `select c.length, c.last, e.sealed
   from charts c left join entries e on e.subject = c.subject and e.seq >= $2
   where c.subject = $1 order by e.seq`,
)

export const index = say('index', 'select subject, length, last, open, due_at from charts')

export const due = say(
  'due',
  'select subject from charts where due_at <= $1 order by due_at, subject limit $2',
)

export const schedule = say('schedule', 'update charts set due_at = $2 where subject = $1 and length = $3')

/** The first of every lane that may go now; a row that somebody else is just taking is passed over. */
export const claim = say(
  'claim',
  `with ready as (
     select n.key, n.place, n.urgent from notices n
     where n.outcome is null
       and coalesce(greatest(n.not_before, n.retry_at, n.held_until), '') <= $1
       and (n.urgent or not $4::boolean) and n.lane <> all ($5::text[])
       and not exists (
         select from notices e where e.lane = n.lane and e.outcome is null and e.place < n.place)
     order by n.urgent desc, n.place
     limit $3
     for update of n skip locked
   ), taken as (
     update notices n
     set tries = n.tries + (n.held_until is not null)::integer,
         unsure = n.unsure or n.held_until is not null,
         held_until = $2
     from ready where n.key = ready.key
     returning n.key, n.notice, n.tries, n.unsure, n.urgent, n.place
   )
   select * from taken order by urgent desc, place`,
)

/** The end of a notice, and for one that was sent the place of its surface. */
export const end = say(
  'end',
  `with ended as (
     update notices set outcome = $2, held_until = null, ended_place = nextval('places')
     where key = $1 and outcome is null
     returning surface, ended_place
   )
   insert into receipts (surface, channel, ts, place)
   select surface, $3, $4, ended_place from ended where surface is not null and $3::text is not null
   on conflict (surface) do update set channel = excluded.channel, ts = excluded.ts, place = excluded.place`,
)

/** A try that failed, told by the one who still holds the notice. */
export const retry = say(
  'retry',
  `update notices set tries = tries + 1, retry_at = $2, unsure = $3, held_until = null
   where key = $1 and outcome is null and held_until = $4`,
)

export const receipt = say('receipt', 'select channel, ts from receipts where surface = $1')

export const waiting = say(
  'waiting',
  'select count(*)::integer as waiting from notices where outcome is null',
)

export const nextTry = say(
  'next-try',
  `select min(coalesce(greatest(n.not_before, n.retry_at, n.held_until), n.queued_at)) as at from notices n
   where n.outcome is null
     and (n.urgent or not $1::boolean) and n.lane <> all ($2::text[])
     and not exists (select from notices e where e.lane = n.lane and e.outcome is null and e.place < n.place)`,
)
