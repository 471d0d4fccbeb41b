-- Roles for a shared database. Run once as a superuser, in the clinic's database:
--   psql -v ON_ERROR_STOP=1 -d clinic -f manifests/postgres-roles.sql
-- then, as sanderling_owner:  sanderling store migrate
-- The bot logs in as sanderling_app. It can add entries and never change or delete one; it can shape no table.

create role sanderling_owner login;
create role sanderling_app login;

revoke all on schema public from public;
grant usage, create on schema public to sanderling_owner;
grant usage on schema public to sanderling_app;

alter default privileges for role sanderling_owner in schema public
  grant select on tables to sanderling_app;
alter default privileges for role sanderling_owner in schema public
  grant usage on sequences to sanderling_app;
