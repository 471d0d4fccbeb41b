-- Erasure that reaches a person where the clinic's own journal names them. The bot still cannot change an entry: it can
-- only ask that some give way to tombstones. The others must be the same letter for letter but for the hash of the entry
-- before them, which stands last in each.

create function blank_entries(chart text, at_length integer, old_last text, new_last text, texts text[], named text)
returns boolean
language plpgsql security definer set search_path from current as $$
declare
  behind_entry constant text := ',"before":"[^"]*"}$';
begin
  update charts set length = at_length + 1, last = new_last
    where subject = chart and length = at_length and last = old_last;
  if not found then
    return false;
  end if;
  if cardinality(texts) <> at_length + 1 then
    raise exception 'one entry is added, and none is left out';
  end if;
  if exists (
    select from unnest(texts) with ordinality as t (sealed, ord)
      left join entries e on e.subject = chart and e.seq = t.ord - 1
      where t.sealed::json ->> 'kind' is distinct from 'erased'
        and (e.sealed is null
          or regexp_replace(t.sealed, behind_entry, '') <> regexp_replace(e.sealed, behind_entry, ''))
  ) then
    raise exception 'an entry gives way to a tombstone only';
  end if;
  delete from entries where subject = chart;
  insert into entries (subject, seq, sealed)
    select chart, t.ord - 1, t.sealed from unnest(texts) with ordinality as t (sealed, ord);
  delete from notices where subject = chart
    and (named = any (string_to_array(key, '/'))
      or notice::json ->> 'athlete' = named or notice::json -> 'to' ->> 'person' = named);
  delete from receipts where named = any (string_to_array(surface, '/'));
  return true;
end
$$;

revoke all on function blank_entries from public;

do $$
begin
  if exists (select from pg_roles where rolname = 'sanderling_app') then
    grant execute on function blank_entries to sanderling_app;
  end if;
end
$$;
