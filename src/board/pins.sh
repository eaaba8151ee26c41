#!/bin/sh
# Proves on a board's own lines that no relay glitches and that each is off when the daemon is not there, from the kernel's
# tracepoints gpio_value and gpio_direction, which miss nothing. Root, Debian, two probes, nothing plugged in.
#
# usage: pins.sh day FILE.deb|FILE.jar    installs, then starts, stops, kills, starves the daemon; 20 minutes
#        pins.sh boot                     after a start of the board with the kernel's words trace_event=gpio:* trace_clock=boot
#        pins.sh end FILE.deb             upgrade and purge of the package

# shellcheck disable=SC2317 # check and within call functions by their names

# shellcheck source=src/board/board.sh
. "$(dirname "$0")/board.sh"

# The stop hook only ever releases.
hook_never_energised() { ! trace | grep -q ' energised gpioset'; }
energised_times() { [ "$(how_often energised)" -eq "$1" ]; }
show() { trace | sed 's/^/    /'; }
nothing_energised() {
  if energised_times 0; then
    held "$1: no line was ever energised ($(trace | wc -l) settings seen)"
  else
    missed "$1: a line was energised"
    show
  fi
}

# disaster WORDS SIDE COMMAND...: with SIDE energised, does COMMAND and looks when the line was released, who released it and
# what happened until the daemon was back and had switched on again.
disaster() {
  words=$1
  side=$2
  shift 2
  line=valve
  [ "$side" = cooling ] || line=belt
  say "== $words, while $side is energised"
  is_ready || within 200 is_ready || give_up "the service is not active"
  within 30 beer_celsius
  "ask_for_$side"
  within 200 energised "$side" || give_up "$side is not energised: $(chamber)"
  pid=$(main_pid)
  restarts=$(unit NRestarts)
  trace_on
  at=$(now)
  "$@" "$pid"
  sleep 25
  off=$(trace | awk -v line=$line '$2 == line && $3 == "released" { print $1 - 0; exit }')
  # A kernel that makes a freed line an input releases by the pull and traces nothing.
  if [ -n "$off" ]; then
    say "  the line was set to released $(calc "$off - $at") s after, by $(trace | awk -v line=$line '$2 == line && $3 == "released" { print $4; exit }')"
    check "off within 15 s" true_that "$off - $at <= 15"
  else
    missed "off within 15 s: nobody released the line"
  fi
  show
  check "until then nothing else was energised, and both never at once" not both_at_once
}
not() { ! "$@"; }
comes_back() {
  say "-- back"
  within 200 process_is_another "$pid" || missed "the daemon did not come back"
  within 200 is_ready || missed "the daemon is not ready again"
  say "  back after $(calc "$(started_at) - $at") s, ready, $(($(unit NRestarts) - restarts)) restart, last result $(unit Result)"
  within 150 energised "$side" || missed "$side is not energised again: $(chamber)"
  second=$(trace | awk -v line=$line '$2 == line && $3 == "energised" { print $1; exit }')
  if [ -n "$second" ]; then
    wait_s=10
    [ "$side" = cooling ] || wait_s=60
    say "  energised again $(calc "$second - $(started_at)") s after its start"
    check "not before its minimum off time, $wait_s s from its start" true_that "$second - $(started_at) >= $wait_s"
  fi
  check "switched on once since, no glitch" energised_times 1
  check "the stop hook never energised" hook_never_energised
}
kill_it() { kill -9 "$1"; }
stop_signal() { kill -STOP "$1"; }
ask_to_stop() { systemctl stop "$UNIT"; }
# Less memory than it has: the kernel cannot take back what is in use, and kills.
starve() {
  systemctl set-property --runtime "$UNIT" MemoryMax=24M MemorySwapMax=0
}
feed() { systemctl set-property --runtime "$UNIT" MemoryMax=infinity; }

day() {
  need_root
  need_empty_board
  hand_pulls
  say "kernel $(uname -r) $(uname -m); chip $(chip_label); valve on line $COOL_LINE, low energises; belt on line $HEAT_LINE, high energises"
  say "what a freed line does here: ${PERSIST_WORDS:-see the level after each end}"

  say "== installation"
  trace_on
  install_program "$1"
  case $1 in *.deb) within 120 is_ready || say "  not ready after the installation" ;; esac
  nothing_energised "installation, with the service started on the config that names nothing"
  check "on the wire both are released" wires_released

  say "== commands that look"
  trace_on
  systemctl stop "$UNIT"
  write_config
  program check --config "$CONFIG" | sed 's/^/    /'
  program probes | sed 's/^/    /'
  nothing_energised "check and probes"

  say "== click"
  trace_on
  program click --config "$CONFIG" --relay belt 2>&1 | sed 's/^/    /'
  show
  check "the belt was energised exactly once" energised_times 1
  spans | while read -r line from to; do
    [ "$to" = - ] || say "  $line for $(calc "$to - $from") s"
  done
  check "and released on the wire" wires_released

  say "== start, with nothing to do"
  trace_on
  start_ready
  within 60 beer_celsius || missed "the beer probe is not read"
  say "  ready $(calc "$(unit ActiveEnterTimestampMonotonic) / 1000000 - $(started_at)") s after its start; beer at $(beer_celsius) °C"
  ask_for_rest
  sleep 20
  nothing_energised "start"
  show
  check "on the wire both are released" wires_released

  disaster "stop" heating ask_to_stop
  check "on the wire both are released" wires_released
  trace_on
  start_ready
  at=$(now)
  second=
  within 150 energised heating
  second=$(trace | awk '$3 == "energised" { print $1; exit }')
  check "started again, the belt waits its minimum off time, 60 s" true_that "${second:-0} - $(started_at) >= 60"
  check "switched on once, no glitch" energised_times 1

  disaster "kill -9" cooling kill_it
  comes_back
  disaster "every thread stopped (SIGSTOP)" cooling stop_signal
  comes_back
  disaster "kill -9" heating kill_it
  comes_back
  disaster "out of memory" cooling starve
  say "  what the kernel said: $(dmesg | grep -i 'killed process' | tail -n 1)"
  feed
  check "the kernel killed it for memory" sh -c "dmesg | grep -qi 'killed process'"
  comes_back
  systemctl enable "$UNIT" 2>/dev/null
  forget_starts
  finish
}

boot() {
  need_root
  say "== the board has started $(now) s ago, with cooling asked for before"
  within 200 is_ready || give_up "the service is not active"
  within 100 beer_celsius
  within 500 energised cooling || missed "cooling does not go on after the boot: $(chamber)"
  show
  first=$(trace | awk '$3 == "energised" { print $1; exit }')
  say "  the daemon started at $(started_at) s, and energised first at ${first:-never}"
  check "nothing is energised before the daemon has run its minimum off time" true_that "${first:-0} - $(started_at) >= 10"
  check "switched on once, no glitch" energised_times 1
  check "both never at once" not both_at_once
  finish
}

end() {
  need_root
  say "== upgrade while cooling is energised"
  within 200 is_ready || give_up "the service is not active"
  within 100 beer_celsius
  ask_for_cooling
  within 150 energised cooling || give_up "cooling is not energised"
  pid=$(main_pid)
  restarts=$(unit NRestarts)
  trace_on
  dpkg -i "$1" || missed "the upgrade failed"
  at=$(now)
  side=cooling line=valve
  within 60 process_is_another "$pid" || missed "no new process"
  off=$(trace | awk '$3 == "released" { print $1; exit }')
  say "  the new process started at $(started_at) s; the line was released at ${off:-never}"
  check "released before the new one started" true_that "${off:-999999} <= $(started_at)"
  comes_back
  show
  say "== purge while cooling is energised"
  trace_on
  at=$(now)
  dpkg --purge gylewarden || missed "the purge failed"
  off=$(trace | awk '$3 == "released" { print $1; exit }')
  say "  released $(calc "${off:-999999} - $at") s after it began"
  check "off within 15 s" true_that "${off:-999999} - $at <= 15"
  check "and nothing was energised" energised_times 0
  sleep 3
  check "on the wire both are released" wires_released
  show
  left=$(find / -xdev -path /proc -prune -o -path /sys -prune -o -name '*gylewarden*' -print 2>/dev/null | grep -v '^/rig\|^/root\|^/tmp')
  say "  left behind: ${left:-nothing}"
  finish
}

case ${1:-} in
  day) [ $# -eq 2 ] && day "$2" ;;
  boot) boot ;;
  end) [ $# -eq 2 ] && end "$2" ;;
esac
say "usage: pins.sh day FILE.deb|FILE.jar | pins.sh boot | pins.sh end FILE.deb"
exit 2
