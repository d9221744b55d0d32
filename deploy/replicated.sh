#!/usr/bin/env bash
# Starts, on one machine and without containers, what compose.yaml starts with them: a PostgreSQL primary, a standby that
# confirms every commit, two servers of the service and nginx in front of them. Use it to try replication, and as a pattern
# for machines of their own. Run it from the folder of the built program, as a user other than root:
#
#   deploy/replicated.sh start FOLDER
#   deploy/replicated.sh stop FOLDER
#
# FOLDER gets the data, the logs and FOLDER/environment, the settings that commands such as `npm run keys` need. nginx
# listens on 127.0.0.1:PORT (8080); the servers of the service, the primary and the standby on the four ports after it.
set -euo pipefail

[ $# = 2 ] || { sed -n '2,10s/^# \{0,1\}//p' "$0" >&2; exit 2; }
program=$(cd "$(dirname "$0")/.." && pwd)
mkdir -p -m 700 "$2"
folder=$(cd "$2" && pwd)
port=${PORT:-8080}
service_ports=($((port + 1)) $((port + 2)))
primary_port=$((port + 3))
standby_port=$((port + 4))
# Debian keeps the server's programs out of the PATH.
PATH=$PATH:$(find /usr/lib/postgresql -mindepth 2 -maxdepth 2 -name bin 2>/dev/null | sort -V | tail -1)

administer() {
  # Until the standby is there, nothing confirms a commit.
  PGOPTIONS='-c synchronous_commit=local' psql -qX -v ON_ERROR_STOP=1 -h "$folder" -p "$primary_port" -U admin postgres "$@"
}

start_primary() {
  if [ -d "$folder/standby" ] && [ ! -f "$folder/standby/standby.signal" ]; then
    echo 'the standby has been promoted and is the primary now; make a new standby of it before you use the old primary' >&2
  elif [ ! -d "$folder/primary" ]; then
    openssl rand -hex 16 >"$folder/password"
    initdb --pgdata "$folder/primary" --username admin --auth-local trust --auth-host scram-sha-256 --encoding UTF8 >/dev/null
    mkdir -p "$folder/archive"
    cat >>"$folder/primary/postgresql.conf" <<CONF
port = $primary_port
listen_addresses = '127.0.0.1'
unix_socket_directories = '$folder'
# A commit is acknowledged once the standby has it too.
synchronous_standby_names = 'standby'
# Together with a base backup, these restore any moment since it was made.
archive_mode = on
archive_command = 'test ! -f "$folder/archive/%f" && cp "%p" "$folder/archive/%f"'
CONF
    pg_ctl --pgdata "$folder/primary" --log "$folder/primary.log" --wait start >/dev/null
    administer -v password="$(cat "$folder/password")" <<'SQL'
create role brakes login password :'password';
create role replicator replication login password :'password';
create database brakes owner brakes;
SQL
  elif ! pg_ctl --pgdata "$folder/primary" status >/dev/null; then
    pg_ctl --pgdata "$folder/primary" --log "$folder/primary.log" --wait start >/dev/null
  fi
}

start_standby() {
  if [ ! -d "$folder/standby" ]; then
    PGPASSWORD=$(cat "$folder/password") pg_basebackup --host 127.0.0.1 --port "$primary_port" --username replicator \
      --pgdata "$folder/standby" --write-recovery-conf --create-slot --slot standby --checkpoint fast
    cat >>"$folder/standby/postgresql.conf" <<CONF
port = $standby_port
# The name that the primary waits for.
cluster_name = 'standby'
# A promoted standby has no standby of its own.
synchronous_standby_names = ''
archive_mode = off
CONF
  fi
  pg_ctl --pgdata "$folder/standby" status >/dev/null ||
    pg_ctl --pgdata "$folder/standby" --log "$folder/standby.log" --wait start >/dev/null
}

start_services() {
  echo "DATABASE_URL=postgres://brakes:$(cat "$folder/password")@127.0.0.1:$primary_port,127.0.0.1:$standby_port/brakes" >"$folder/environment"
  for each in "${service_ports[@]}"; do
    # shellcheck disable=SC2046
    (cd "$program" && exec env $(cat "$folder/environment") HOST=127.0.0.1 PORT="$each" TRUST_PROXY=127.0.0.1 \
      node dist/src/main.js) >>"$folder/service-$each.log" 2>&1 &
    echo $! >"$folder/service-$each.pid"
  done
}

start_nginx() {
  sed -e "s/brakes-1:3000/127.0.0.1:${service_ports[0]}/" -e "s/brakes-2:3000/127.0.0.1:${service_ports[1]}/" \
    -e "s/listen 80;/listen 127.0.0.1:$port;/" "$program/deploy/replicated-nginx.conf" >"$folder/site.conf"
  cat >"$folder/nginx.conf" <<CONF
pid $folder/nginx.pid;
error_log $folder/nginx.log;
events {}
http {
    access_log off;
    client_body_temp_path $folder/nginx-body;
    proxy_temp_path $folder/nginx-proxy;
    fastcgi_temp_path $folder/nginx-fastcgi;
    uwsgi_temp_path $folder/nginx-uwsgi;
    scgi_temp_path $folder/nginx-scgi;
    include $folder/site.conf;
}
CONF
  nginx -p "$folder" -c "$folder/nginx.conf" -e "$folder/nginx.log"
}

start() {
  umask 077
  start_primary
  start_standby
  start_services
  start_nginx
  for _ in $(seq 600); do
    curl -s --fail "http://127.0.0.1:$port/health/ready" >/dev/null && { echo "http://127.0.0.1:$port is ready"; return; }
    sleep 0.2
  done
  echo "the service is not ready; see the logs in $folder" >&2
  return 1
}

stop() {
  [ ! -f "$folder/nginx.pid" ] || kill -QUIT "$(cat "$folder/nginx.pid")" || true
  for pid in "$folder"/service-*.pid; do
    [ ! -f "$pid" ] || kill "$(cat "$pid")" 2>/dev/null || true
    rm -f "$pid"
  done
  for each in standby primary; do
    ! pg_ctl --pgdata "$folder/$each" status >/dev/null 2>&1 || pg_ctl --pgdata "$folder/$each" --mode fast --wait stop >/dev/null
  done
}

case $1 in
  start | stop) "$1" ;;
  *) echo 'say start or stop' >&2; exit 2 ;;
esac
