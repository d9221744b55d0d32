# Replaces what docs/operations.md needs of a real machine by a folder of its own: no packages, no accounts, and systemd and
# nginx for this user. ROOT, REPOSITORY, PORT, TLS_PORT and PLAIN_PORT are set.
sudo() {
  if [ "$1" = -u ]; then shift 2; fi
  "$@"
}
apt-get() { :; }
useradd() { :; }
chown() { :; }

# production.test.ts covers the install itself.
npm() {
  case "$*" in
    ci) ln -s "$REPOSITORY/node_modules" node_modules ;;
    'run build') ln -s "$REPOSITORY/dist" dist ;;
    'prune --omit=dev') : ;;
    *) return 1 ;;
  esac
}

# Reads a setting of a unit.
unit() { sed -n "s/^$2=//p" "$ROOT/etc/systemd/system/$1" | head -1; }

run_unit() {
  local name=$1
  cd "$(unit "$name" WorkingDirectory)"
  # shellcheck disable=SC2046
  exec env $(xargs <"$(unit "$name" EnvironmentFile)") PATH="$PATH" $(unit "$name" ExecStart)
}

stop_service() {
  [ -f "$ROOT/service.pid" ] || return 0
  local pid
  pid=$(cat "$ROOT/service.pid")
  kill "$pid"
  wait "$pid" || {
    echo "the service ended with $?:" >&2
    tail -5 "$ROOT/service.log" >&2
    return 1
  }
  rm "$ROOT/service.pid"
}

start_service() {
  (run_unit brake-wear.service) >>"$ROOT/service.log" 2>&1 &
  echo $! >"$ROOT/service.pid"
  until command curl -s --fail "http://127.0.0.1:$PORT/health/ready" >/dev/null; do
    kill -0 "$(cat "$ROOT/service.pid")" || {
      tail -5 "$ROOT/service.log" >&2
      return 1
    }
    sleep 0.2
  done
}

systemctl() {
  case "$*" in
    daemon-reload | 'enable --now brake-wear-backup.timer') : ;;
    'enable --now brake-wear') start_service ;;
    'restart brake-wear') stop_service && start_service ;;
    'start brake-wear-backup.service') (run_unit brake-wear-backup.service) ;;
    'reload nginx') command nginx -c "$ROOT/nginx.conf" -p "$ROOT" ;;
    *) return 1 ;;
  esac
}

nginx() {
  mkdir -p "$ROOT/etc/nginx/conf.d"
  cat >"$ROOT/nginx.conf" <<CONF
pid $ROOT/nginx.pid;
error_log $ROOT/nginx.log;
worker_processes 1;
events {}
http {
  access_log off;
  client_body_temp_path $ROOT/body;
  proxy_temp_path $ROOT/proxy;
  fastcgi_temp_path $ROOT/fastcgi;
  uwsgi_temp_path $ROOT/uwsgi;
  scgi_temp_path $ROOT/scgi;
  include $ROOT/etc/nginx/conf.d/*.conf;
}
CONF
  command nginx "$@" -c "$ROOT/nginx.conf" -p "$ROOT"
}

curl() {
  command curl --cacert "$ROOT/etc/ssl/brake-wear/fullchain.pem" \
    --connect-to "brakes.example.com:443:127.0.0.1:$TLS_PORT" \
    --connect-to "brakes.example.com:80:127.0.0.1:$PLAIN_PORT" "$@"
}

stop_all() {
  stop_service || true
  if [ -f "$ROOT/nginx.pid" ]; then kill "$(cat "$ROOT/nginx.pid")"; fi
}
trap stop_all EXIT
