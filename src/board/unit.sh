#!/bin/sh
# Proves that the service is shut in and still works: its exposure by systemd's own count, with lines, probes and page at work;
# then that it lives on a root that can only be read, with its data on a disk of its own. Root, Debian, two probes, nothing
# plugged in.
#
# usage: unit.sh exposure FILE.deb|FILE.jar
#        unit.sh read-only-root FILE.deb|FILE.jar    afterwards restart the board: its root stays read-only until then

# shellcheck disable=SC2317 # check and within call functions by their names

# shellcheck source=src/board/board.sh
. "$(dirname "$0")/board.sh"

believed() { [ -n "$(beer_celsius)" ]; }
page_answers() { curl -sS -f -m 20 http://127.0.0.1:8080/ | grep -qi '<html'; }
install() {
  need_root
  need_empty_board
  hand_pulls
  install_program "$1"
  systemctl stop "$UNIT"
  write_config
}
# Lines, probes and page at work, looked at from outside.
all_works() {
  within 90 believed || missed "the beer probe is not read: $(chamber)"
  check "1-Wire: the beer is at $(beer_celsius) °C" believed
  ask_for_cooling
  within 60 energised cooling || missed "cooling is not energised: $(chamber)"
  sleep 2
  if [ -n "$(level "$COOL_LINE")" ]; then
    check "GPIO: the valve's line is at its energised level" wire_energised cooling
  else
    check "GPIO: the valve's line was set" [ "$(how_often energised valve)" -ge 1 ]
  fi
  check "the page comes" page_answers
  record=$(ask GET /record)
  say "  the record: $(printf '%s' "$record" | head -c 300)"
}

exposure() {
  install "$1"
  trace_on
  start_ready
  all_works
  say "== exposure"
  systemd-analyze security --no-pager "$UNIT" | grep -E '^ *(-|✗|→|->) ' | sed 's/^/    /'
  overall=$(systemd-analyze security --no-pager "$UNIT" | sed -n 's/.*Overall exposure level[^:]*: \([0-9.]*\).*/\1/p')
  check "exposure $overall, at most 2.5" true_that "${overall:-10} <= 2.5"
  finish
}

root_is_read_only() { ! touch /etc/gylewarden/written 2>/dev/null; }
read_only_root() {
  install "$1"
  say "== data on a disk of its own, root read-only"
  if ! mountpoint -q "$DATA"; then
    dd if=/dev/zero of=/run/data.img bs=1M count=64 2>/dev/null
    mkfs.ext4 -q /run/data.img
    mount -o loop /run/data.img "$DATA" || give_up "no disk for the data: mount one on $DATA"
    chown gylewarden:gylewarden "$DATA"
    chmod 750 "$DATA"
  fi
  sync
  # Files that are open for writing keep a root busy; the kernel does it all the same when it is asked by its magic key.
  if ! mount -o remount,ro / 2>/dev/null; then
    echo 1 >/proc/sys/kernel/sysrq
    echo u >/proc/sysrq-trigger
    within 20 root_is_read_only || give_up "the root can't be made read-only; boot with \"ro\" and a disk on $DATA"
    mount -o remount,rw "$DATA" || give_up "the disk on $DATA can't be written to"
  fi
  check "the root can only be read" root_is_read_only
  grep -E " (/|$DATA) " /proc/mounts | sed 's/^/    /'
  trace_on
  start_ready
  all_works
  check "the record is sound" [ "$(printf '%s' "$record" | field state)" = sound ]
  pid=$(main_pid)
  kill -9 "$pid"
  within 200 process_is_another "$pid" || missed "it does not come back after a kill"
  within 200 is_ready || missed "it is not ready again"
  check "after a kill the target is still asked for" sh -c "printf '%s' \"\$1\" | grep -q targetCelsius" sh "$(chamber)"
  say "  what it logged since the start:"
  journalctl --no-pager -o cat -u "$UNIT" | grep -v '^Started\|^Starting' | tail -n 25 | sed 's/^/    /'
  check "the log can be read, and has no error about the disk" sh -c "! journalctl --no-pager -o cat -u $UNIT | grep -i 'read-only\|can only be read'"
  finish
}

case ${1:-}:$# in
  exposure:2) exposure "$2" ;;
  read-only-root:2) read_only_root "$2" ;;
esac
say "usage: unit.sh exposure FILE | unit.sh read-only-root FILE"
exit 2
