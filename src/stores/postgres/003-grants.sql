-- What the bot may do, where its role exists (manifests/postgres-roles.sql). Entries are only ever added.

do $$
begin
  if exists (select from pg_roles where rolname = 'sanderling_app') then
    grant select on charts, entries, notices, receipts, schema_steps to sanderling_app;
    grant insert, update on charts, notices, receipts to sanderling_app;
    grant insert on entries to sanderling_app;
    grant usage, update on sequence places to sanderling_app;
  end if;
end
$$;
