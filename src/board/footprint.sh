#!/bin/sh
# What the daemon costs: time and processor at the start, processor and bytes written while nothing happens, and memory after
# some days of three chambers, four open pages and a broker. The days pass faster than real ones: the process is shown a clock
# that runs ahead (libfaketime). Plain POSIX shell, /proc, curl, faketime and mosquitto; needs no root and touches no hardware.
#
# usage: footprint.sh [-s SPEED] [-d DAYS] [-j "JAVA OPTIONS"] JAR
#
#   -s  virtual seconds in a real one, 150 if not given: a week takes 70 minutes; less on a slow board
#   -d  virtual days, 7 if not given
#   -j  the options of the unit if not given
#
# Prints what it does on standard error and a table in Markdown on standard output. Exit status: 0 measured, 1 it was not.

set -eu
speed=150
days=7
options='-XX:+UseSerialGC -XX:TieredStopAtLevel=1 -Xss256k -Xmx32m -XX:+ExitOnOutOfMemoryError'
while getopts s:d:j: option; do
  case $option in
    s) speed=$OPTARG ;;
    d) days=$OPTARG ;;
    j) options=$OPTARG ;;
    *) exit 1 ;;
  esac
done
shift $((OPTIND - 1))
[ $# -eq 1 ] || { sed -n 's/^# \{0,1\}//; 6,10p' "$0" >&2; exit 1; }
jar=$(readlink -f "$1")
page=http://127.0.0.1:18089
broker=18189
pages=4
ticks=$(getconf CLK_TCK)

work=$(mktemp -d)
others=
daemon=
say() { echo "footprint: $*" >&2; }
end() {
  # shellcheck disable=SC2086 # several process ids
  kill $daemon $others 2>/dev/null || true
  [ -z "$daemon" ] || while kill -0 "$daemon" 2>/dev/null; do sleep 0.1; done
  rm -rf "$work"
}
trap end EXIT
trap 'exit 1' INT TERM

# --- a board of three chambers ---

{
  printf '[store]\ndirectory = "data"\n[web]\nlisten = "%s"\n[clock]\nbattery = true\n' "${page#http://}"
  printf '[mqtt]\nbroker = "mqtt://127.0.0.1:%s"\n' $broker
  for n in 1 2 3; do
    printf '[[probe]]\nid = "beer%s"\nkind = "file"\npath = "beer%s"\n' $n $n
    printf '[[probe]]\nid = "air%s"\nkind = "file"\npath = "air%s"\n' $n $n
    printf '[[relay]]\nid = "cool%s"\nkind = "file"\npath = "cool%s"\n' $n $n
    printf '[[relay]]\nid = "heat%s"\nkind = "file"\npath = "heat%s"\n' $n $n
    printf '[[chamber]]\nid = "c%s"\nname = "Chamber %s"\ntarget = "18.0C"\nbeer_probe = "beer%s"\nair_probe = "air%s"\n' $n $n $n $n
    printf 'cooling = "cool%s"\ncooling_by = "compressor"\nheating = "heat%s"\n' $n $n
  done
} >"$work/gylewarden.toml"
for n in 1 2 3; do
  echo "1${n}500" >"$work/beer$n"
  echo "1${n}000" >"$work/air$n"
done

# Beer that warms by itself by half a kelvin an hour and goes where its relay drives it, so that relays switch and alarms do not.
world() {
  while sleep 1; do
    for n in 1 2 3; do
      beer=$(cat "$work/beer$n")
      step=$((speed * 500 / 3600))
      [ "$(cat "$work/cool$n" 2>/dev/null)" = 1 ] && step=$((speed * -1500 / 3600))
      [ "$(cat "$work/heat$n" 2>/dev/null)" = 1 ] && step=$((speed * 1000 / 3600))
      beer=$((beer + step))
      printf '%s\n' $beer >"$work/new" && cat "$work/new" >"$work/beer$n"
      printf '%s\n' $((beer - 400 + 4 * step)) >"$work/new" && cat "$work/new" >"$work/air$n"
    done
  done
}

# --- looking ---

milliseconds() { awk '{ print int($1 * 1000) }' /proc/uptime; }
processor() { awk -v t="$ticks" '{ sub(/.*\) /, ""); print int(($12 + $13) * 1000 / t) }' "/proc/$daemon/stat"; }
resident() { awk '/^VmRSS/ { print int($2 / 1024) }' "/proc/$daemon/status"; }
threads() { awk '/^Threads/ { print $2 }' "/proc/$daemon/status"; }
written() { awk '/^write_bytes/ { print $2 }' "/proc/$daemon/io"; }

# Waits until the page answers; the time that this took and the processor time, in ms.
begin() {
  from=$(milliseconds)
  # shellcheck disable=SC2086 # several options
  "$@" java $options -jar "$jar" run --config "$work/gylewarden.toml" >>"$work/log" 2>&1 &
  daemon=$!
  until curl -sf -o "$work/answer" $page/healthz; do
    kill -0 $daemon 2>/dev/null || { tail -n 5 "$work/log" >&2; say "the daemon has ended"; exit 1; }
    [ $(($(milliseconds) - from)) -lt 300000 ] || { say "the page does not answer"; exit 1; }
    sleep 0.05
  done
  started=$(($(milliseconds) - from))
  [ $# -eq 0 ] || daemon=$(pgrep -n -f "run --config $work/gylewarden.toml")
  cost=$(processor)
}
finish() {
  kill "$daemon"
  while kill -0 "$daemon" 2>/dev/null; do sleep 0.1; done
}

mosquitto -p $broker >"$work/broker.log" 2>&1 &
others="$others $!"
world &
others="$others $!"

say "three starts, the first of them without a record"
begin; finish
begin; starts="$started $cost"; finish
begin; starts="$starts $started $cost"
# shellcheck disable=SC2086 # four numbers
set -- $starts
start=$((($1 + $3) / 2)) startcost=$((($2 + $4) / 2))

say "two minutes without a page"
sleep 60
cost=$(processor) bytes=$(written)
sleep 120
# In millionths of one core: ms of processor in 120 s.
idle=$((($(processor) - cost) * 1000 / 120))
bytesaday=$((($(written) - bytes) * 720))
quiet=$(resident)
finish

say "$days days at $speed times the speed, with $pages pages and a broker"
begin faketime -f "+0 x$speed"
for _ in $(seq $pages); do
  curl -sN -H 'Accept: text/event-stream' $page/api/live -o /dev/null &
  others="$others $!"
done
bytes=$(written)
most=0
over=$(($(milliseconds) + days * 86400000 / speed))
while [ "$(milliseconds)" -lt $over ]; do
  sleep 10
  for n in 1 2 3; do
    curl -sf -o "$work/answer" "$page/api/chambers/c$n/readings?points=400" || say "no readings of chamber $n"
  done
  curl -sf -o "$work/answer" $page/ || say "no page"
  kill -0 "$daemon" 2>/dev/null || { tail -n 20 "$work/log" >&2; say "the daemon has ended"; exit 1; }
  now=$(resident)
  [ "$now" -le "$most" ] || most=$now
done
switches=$(curl -sf "$page/api/chambers/c1/events?limit=500" | grep -o 'energised' | wc -l)
now=$(resident)
weekbytes=$((($(written) - bytes) / days))
count=$(threads)
say "of the latest 500 events of chamber 1, $switches say energised; the worst of the log:"
grep -c ' ERROR ' "$work/log" >&2 || true
finish

cat <<EOF
| what | figure |
|---|---|
| machine | $(uname -m), $(getconf _NPROCESSORS_ONLN) cores, $(java -version 2>&1 | sed -n 's/.*version "\([^"]*\)".*/Java \1/p') |
| options | \`$options\` |
| jar | $(($(wc -c <"$jar") / 1000)) kB |
| start until the page answers, mean of two | $start ms, of that $startcost ms of one core |
| processor while nothing is looked at | $((idle / 10000)).$(printf '%02d' $((idle / 100 % 100))) % of one core |
| written a day while nothing is looked at | $((bytesaday / 1000000)) MB |
| written a day with switches and pages, of $days days at $speed times the speed | $((weekbytes / 1000000)) MB |
| resident three minutes after a start | $quiet MB |
| resident after $days days, $pages pages, a broker | $now MB; at most $most MB |
| threads then | $count |
EOF
