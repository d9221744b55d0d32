#!/usr/bin/env bash
# Runs once, when compose.yaml first starts the primary: the roles, the database, and the rule that a standby confirms every
# commit, which applies from the server's next start.
set -euo pipefail
psql --username admin --dbname postgres --set ON_ERROR_STOP=1 --set password="$POSTGRES_PASSWORD" <<'SQL'
create role brakes login password :'password';
create role replicator replication login password :'password';
create database brakes owner brakes;
alter system set synchronous_standby_names = 'standby';
SQL
echo 'host replication replicator all scram-sha-256' >>"$PGDATA/pg_hba.conf"
