-- Erasure, where the clinic lead confirmed that the law allows it. The bot cannot change or delete an entry; all it can
-- ask for is that a whole chart gives way to a tombstone. As the owner, with the names resolved as they are now.

create function erase_chart(chart text, at_length integer, new_last text, tombstone text) returns boolean
language plpgsql security definer set search_path from current as $$
begin
  if tombstone::json ->> 'kind' is distinct from 'erased' or tombstone::json ->> 'before' is distinct from 'start' then
    raise exception 'a chart gives way to a tombstone only';
  end if;
  update charts set length = 1, last = new_last, open = false, due_at = null
    where subject = chart and length = at_length;
  if not found then
    return false;
  end if;
  delete from entries where subject = chart;
  insert into entries (subject, seq, sealed) values (chart, 0, tombstone);
  delete from notices where subject = chart;
  delete from receipts where chart = any (string_to_array(surface, '/'));
  return true;
end
$$;

revoke all on function erase_chart from public;

do $$
begin
  if exists (select from pg_roles where rolname = 'sanderling_app') then
    grant execute on function erase_chart to sanderling_app;
  end if;
end
$$;
