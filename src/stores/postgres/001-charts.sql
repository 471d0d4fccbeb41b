-- Charts, what they queue, and where it was posted. Instants are text in UTC with milliseconds, under collation
-- "C": the order of the text is the order of time, and what is read is what was written.

create sequence places;

create table charts (
  subject text collate "C" primary key,
  length integer not null,
  last text not null,
  open boolean not null,
  -- null: nothing will be due by itself; '' (before every instant): not known, look now
  due_at text collate "C"
) with (fillfactor = 70);

-- Entries and notices are only written by the statement that moves their chart: a foreign key would look up what
-- the same statement has just written.
create table entries (
  subject text collate "C" not null,
  seq integer not null,
  -- the entry as it was sealed, letter for letter: its hash depends on the order of the keys
  sealed text not null,
  primary key (subject, seq)
);

create table notices (
  key text collate "C" primary key,
  place bigint not null default nextval('places'),
  subject text collate "C" not null,
  lane text collate "C" not null,
  urgent boolean not null,
  notice text not null,
  surface text collate "C",
  queued_at text collate "C" not null,
  not_before text collate "C",
  retry_at text collate "C",
  held_until text collate "C",
  tries integer not null default 0,
  unsure boolean not null default false,
  -- how it ended, as it was told to the store; null while it waits
  outcome text,
  ended_place bigint
);

create index notices_by_lane on notices (lane, place) where outcome is null;

create table receipts (
  surface text collate "C" primary key,
  channel text not null,
  ts text not null,
  place bigint not null
);
