#!/bin/sh
# Cuts the power at random moments of a busy batch, and looks after each start at what was left. Root, Debian, two probes, the
# beer probe at least 1 K above BEER_TARGET so that cooling is wanted, nothing plugged in, the service enabled.
#
# usage: powercut.sh begin FILE.deb|FILE.jar BOOK     installs, begins the batch, and goes on as "round"
#        powercut.sh round BOOK                       after a start: looks, is busy, cuts
#        powercut.sh end BOOK                         after the last cut: looks, and sums up all rounds
#
# BOOK is a folder that no cut reaches (of another machine, or a stick that is written through): what was answered as saved is
# noted there before the next thing is asked. BOOK/rounds.csv gets a line a cut. SEED and the number of the round decide for
# how long the batch is busy: up to 45 s, in each fourth round from the moment that the compressor runs.
# Kernel's words: trace_event=gpio:* trace_clock=boot

# shellcheck disable=SC2317 # check and within call functions by their names

COOLING_BY=compressor MIN_OFF=3m MIN_ON=1m
# shellcheck source=src/board/board.sh
. "$(dirname "$0")/board.sh"

: "${SEED:=1}" "${BEER_TARGET:=18}"
WAIT_S=180

# random ROUND BELOW: the same for the same SEED.
random() { awk -v seed="$SEED" -v round="$1" -v below="$2" 'BEGIN { srand(seed * 1000 + round); rand(); print int(rand() * below) }'; }
note_down() { printf '%s\n' "$*" >>"$BOOK/saved"; }
record() { sqlite3 -readonly "$DATA/gylewarden.db" "$1"; }
batch() { cat "$BOOK/batch"; }
rounds() { if [ -e "$BOOK/rounds.csv" ]; then grep -c '^[0-9]' "$BOOK/rounds.csv"; else echo 0; fi; }
# Each revision holds as many seconds longer as its number says.
schedule() {
  printf '{"steps": [{"kind": "hold", "celsius": %s, "duration": "P9DT%sS"}, {"kind": "fall", "celsius": 12, "kelvinPerDay": 1}]}' \
    "$BEER_TARGET" "$1"
}

begin() {
  need_root
  need_empty_board
  mkdir -p "$BOOK"
  install_program "$1"
  systemctl stop "$UNIT"
  write_config
  printf '[clock]\nbattery = true\n' >>"$CONFIG"
  systemctl enable "$UNIT" 2>/dev/null
  start_ready
  within 60 beer_celsius || give_up "the beer probe is not read"
  ask POST /batches "{\"name\": \"Lamplighter Porter\", \"chamberId\": \"cellar\", \"pitched\": true, \"schedule\": $(schedule 0)}" \
    | field id >"$BOOK/batch"
  ask GET "/batches/$(batch)" >/dev/null || give_up "no batch was begun: $(cat "$BOOK/batch")"
  say "batch $(batch) has begun; seed $SEED"
  note_down "revision 1"
  ask GET "/batches/$(batch)/schedule" | field endsAt >"$BOOK/ends"
  echo 'round,seed,busy_s,started_after_s,ready_after_s,integrity,notes_saved,notes_missing,revision_saved,revision_found,measurements_missing_s,step,end_moved_s,compressor_first_s,compressor_was_running,verdict' >"$BOOK/rounds.csv"
  busy
}

# Writes until the power goes; all that was answered as saved is in the book.
busy() {
  round=$(($(rounds) + 1))
  busy_s=$(random "$round" 45)
  if [ $((round % 4)) -eq 0 ]; then
    within 400 energised cooling || missed "the compressor never runs: $(chamber)"
    say "the compressor runs"
  fi
  say "round $round: busy for $busy_s s, then the power is cut"
  echo "$busy_s" >"$BOOK/busy"
  echo $(($(awk '/^btime/ { print $2 }' /proc/stat) + $(started_at | cut -d . -f 1))) >"$BOOK/began"
  until_uptime=$(calc "$(now) + $busy_s")
  if [ "${BY_HAND:-}" ]; then hand_cut_power; fi
  (
    # The cut comes in the middle of whatever is being written.
    while true_that "$(now) < $until_uptime"; do sleep 0.2; done
    energised cooling && echo yes >"$BOOK/running" || echo no >"$BOOK/running"
    hand_cut_power
  ) &
  written=0
  revision=$(sed -n 's/^revision //p' "$BOOK/saved" | tail -n 1)
  while :; do
    written=$((written + 1))
    text="round $round note $written"
    if answer=$(ask POST "/batches/$(batch)/notes" "{\"text\": \"$text\"}"); then
      case $answer in *'"saved":true'* | *'"saved": true'*) note_down "note $text" ;; esac
    fi
    date +%s >>"$BOOK/alive"
    if [ $((written % 5)) -eq 0 ]; then
      if answer=$(curl -sS -f -m 20 -X PUT -H 'Content-Type: application/json' -H "If-Match: \"$revision\"" \
        -d "$(schedule $((revision + 1)))" "$API/batches/$(batch)/schedule"); then
        revision=$(printf '%s' "$answer" | field revision)
        note_down "revision $revision"
      fi
    fi
  done
}

# What is found after a start, held against the book; a line in rounds.csv.
look() {
  round=$(($(rounds) + 1))
  say "== round $round, started again $(now) s ago"
  before=$missed
  within 240 is_ready || missed "the service is not ready: $(systemctl status --no-pager "$UNIT" 2>&1)"
  ready=$(calc "$(unit ActiveEnterTimestampMonotonic) / 1000000")
  within 120 beer_celsius || missed "the beer probe is not read"
  boot_date=$(awk '/^btime/ { print $2 }' /proc/stat)

  integrity=$(record 'pragma integrity_check' | tr '\n' ' ')
  check "the database is sound: $integrity" [ "$integrity" = "ok " ]
  aside=$(find "$DATA" -name '*.broken-*' | tr '\n' ' ')
  check "nothing was set aside as damaged $aside" [ -z "$aside" ]

  sed -n 's/^note //p' "$BOOK/saved" | sort -u >/run/notes.saved
  record "select sentence from event where kind = 'note'" | sort -u >/run/notes.found
  lost=$(comm -23 /run/notes.saved /run/notes.found | wc -l)
  check "of $(wc -l </run/notes.saved) notes that were answered as saved $lost are missing" [ "$lost" -eq 0 ]
  revision_saved=$(sed -n 's/^revision //p' "$BOOK/saved" | tail -n 1)
  revision_found=$(ask GET "/batches/$(batch)/schedule" | field revision)
  check "the schedule is at revision $revision_found, saved was $revision_saved" [ "${revision_found:-0}" -ge "$revision_saved" ]
  seen=$(record "select max(at_minute) from minute where seconds > 0 and at_minute * 60 < $boot_date")
  last_alive=$(tail -n 1 "$BOOK/alive" 2>/dev/null || echo 0)
  # A minute is named by its beginning and written at its end. Nothing could be measured before the daemon's start.
  began=$(cat "$BOOK/began" 2>/dev/null || echo 0)
  covered=$(awk -v seen="${seen:-0}" -v began="$began" 'BEGIN { end = (seen + 1) * 60; print end > began ? end : began }')
  gap=$((last_alive > covered ? last_alive - covered : 0))
  check "$gap s of measurements are missing, at most a minute" [ "$gap" -le 61 ]
  state=$(ask GET "/batches/$(batch)")
  schedule_now=$(ask GET "/batches/$(batch)/schedule")
  step=$(printf '%s' "$schedule_now" | field currentStep)
  check "the batch ferments and is in its first step" [ "$(printf '%s' "$state" | field stage) $step" = "ferments 0" ]
  ends=$(printf '%s' "$schedule_now" | field endsAt)
  moved=$(($(date -d "${ends:-1970-01-01}" +%s) - $(date -d "$(cat "$BOOK/ends")" +%s) - revision_found))
  check "the step ends when it would have ended without the cut, to a minute ($moved s)" [ "${moved#-}" -le 60 ]
  started=$(started_at)
  first=$(trace | awk '$2 == "valve" && $3 == "energised" { print $1; exit }')
  if [ -n "$first" ]; then
    check "the compressor first ran $(calc "$first - $started") s after the daemon's start, not before $WAIT_S s" \
      true_that "$first - $started >= $WAIT_S"
  else
    may=$(chamber | part cooling | field mayStartAt)
    wait_left=$(($(date -d "${may:-1970-01-01}" +%s) - boot_date - ${started%.*}))
    check "the compressor has not run; it may $wait_left s after the daemon's start" [ "$wait_left" -ge $((WAIT_S - 2)) ]
  fi
  verdict=held
  [ "$missed" -eq "$before" ] || verdict=missed
  echo "$round,$SEED,$(cat "$BOOK/busy"),$started,$ready,${integrity% },$(wc -l </run/notes.saved),$lost,$revision_saved,$revision_found,$gap,$step,$moved,${first:-none},$(cat "$BOOK/running" 2>/dev/null),$verdict" >>"$BOOK/rounds.csv"
  rm -f "$BOOK/running"
  forget_starts
}

go_round() {
  need_root
  [ -s "$BOOK/batch" ] || give_up "no batch in $BOOK: powercut.sh begin comes first"
  look
  # The compressor's wait is watched to its end where the round goes on that long.
  busy
}

end() {
  need_root
  look
  say "== all rounds"
  cat "$BOOK/rounds.csv"
  say "$(grep -c ',held$' "$BOOK/rounds.csv") of $(rounds) cuts held"
  finish
}

case ${1:-}:$# in
  begin:3) BOOK=$3 && begin "$2" ;;
  round:2) BOOK=$2 && go_round ;;
  end:2) BOOK=$2 && end ;;
esac
say "usage: powercut.sh begin FILE BOOK | powercut.sh round BOOK | powercut.sh end BOOK"
exit 2
