# shellcheck shell=sh
# What the proofs of this folder share; each sources it. Root, on a Debian board that nothing hangs on yet: no load is
# plugged in, no batch is on it. Lines, tools and hands: docs/board.md.

set -u
export LC_ALL=C.UTF-8
: "${COOL_LINE:=17}" "${HEAT_LINE:=27}" "${CHIP:=}"
UNIT=gylewarden.service
CONFIG=/etc/gylewarden/gylewarden.toml
DATA=/var/lib/gylewarden
API=http://127.0.0.1:8080/api
TRACING=/sys/kernel/tracing
here=$(cd "$(dirname "$0")" && pwd)
held=0
missed=0

say() { printf '%s\n' "$*"; }
held() {
  held=$((held + 1))
  say "  held: $*"
}
missed() {
  missed=$((missed + 1))
  say "  DID NOT HOLD: $*"
}
# check WORDS COMMAND...: holds if the command succeeds.
check() {
  words=$1
  shift
  if "$@" >/dev/null 2>&1; then held "$words"; else missed "$words"; fi
}
give_up() {
  say "given up: $*"
  say "$held held, $missed did not, and the rest was not reached"
  exit 2
}
# The last line, and the exit code: 0 all held, 1 not all.
finish() {
  say "$held held, $missed did not"
  [ "$missed" -eq 0 ]
  exit $?
}

# Seconds since the kernel started, as the trace counts them.
now() { cut -d ' ' -f 1 /proc/uptime; }
# calc EXPRESSION: a number with three decimals.
calc() { awk "BEGIN { printf \"%.3f\n\", $1 }"; }
# true_that EXPRESSION: whether it is true for awk.
true_that() { awk "BEGIN { exit !($1) }"; }
# within SECONDS COMMAND...: tries each half second until it succeeds.
within() {
  until_uptime=$(calc "$(now) + $1")
  shift
  until "$@" >/dev/null 2>&1; do
    true_that "$(now) < $until_uptime" || return 1
    sleep 0.5
  done
}

# ---- The program and its service ----

need_root() { [ "$(id -u)" -eq 0 ] || give_up "root has to run this"; }
# A proof kills the daemon and writes its config: never where somebody's beer is.
need_empty_board() {
  [ ! -e "$DATA/gylewarden.db" ] || [ -e /etc/gylewarden/board-is-for-proofs ] \
    || give_up "$DATA has a record, so somebody's beer may be in here; a proof needs a board of its own"
}
# install_program FILE.deb|FILE.jar: the package, or the jar by hand.
install_program() {
  case $1 in
    *.deb) dpkg -i "$1" || give_up "the package can't be installed" ;;
    *.jar) by_hand "$1" || give_up "the jar can't be installed" ;;
    *) give_up "neither a .deb nor a .jar: $1" ;;
  esac
  touch /etc/gylewarden/board-is-for-proofs
}
by_hand() (
  set -e
  from=$here/../../systemd
  install -d /usr/lib/gylewarden /etc/gylewarden
  install -m 644 "$1" /usr/lib/gylewarden/gylewarden.jar
  install -m 755 "$from/release-relays.sh" /usr/lib/gylewarden/
  [ ! -e "$from/java-flags" ] || install -m 644 "$from/java-flags" /usr/lib/gylewarden/
  install -m 644 "$from/gylewarden.sysusers" /usr/lib/sysusers.d/gylewarden.conf
  install -m 644 "$from/60-gylewarden-gpio.rules" /usr/lib/udev/rules.d/
  install -m 644 "$from/gylewarden.service" /etc/systemd/system/
  systemd-sysusers gylewarden.conf
  udevadm control --reload
  udevadm trigger --subsystem-match=gpio
  systemctl daemon-reload
)
program() {
  if command -v gylewarden >/dev/null; then gylewarden "$@"; else java -jar /usr/lib/gylewarden/gylewarden.jar "$@"; fi
}
probe_names() { (cd /sys/bus/w1/devices && ls -d 28-*); }
# A chamber that may switch fast, so that a proof ends this hour: a coolant valve, 10 s off and on. With ONLY_PROBE set it
# has no air probe that could stand in for the beer's.
write_config() {
  first=$(probe_names | sed -n 1p)
  second=$(probe_names | sed -n 2p)
  [ -n "$second" ] || give_up "two 1-Wire probes are needed"
  air_key='air_probe = "air"'
  [ -z "${ONLY_PROBE:-}" ] || air_key='watch = ["air"]'
  chip_key=
  [ -z "$CHIP" ] || chip_key="chip = \"$CHIP\""
  cat >"$CONFIG" <<EOF
[store]
directory = "$DATA"
[[probe]]
id = "beer"
kind = "one-wire"
address = "$first"
interval = "2s"
[[probe]]
id = "air"
kind = "one-wire"
address = "$second"
interval = "2s"
[[relay]]
id = "valve"
kind = "gpio"
line = $COOL_LINE
active_low = true
$chip_key
[[relay]]
id = "belt"
kind = "gpio"
line = $HEAT_LINE
$chip_key
[[chamber]]
id = "cellar"
beer_probe = "beer"
$air_key
cooling = "valve"
heating = "belt"
cooling_by = "${COOLING_BY:-valve}"
min_off = "${MIN_OFF:-10s}"
min_on = "${MIN_ON:-10s}"
changeover = "0s"
EOF
  chown root:gylewarden "$CONFIG"
  chmod 640 "$CONFIG"
}
unit() { systemctl show --value -p "$1" "$UNIT"; }
is_ready() { [ "$(unit ActiveState)" = active ]; }
main_pid() { unit MainPID; }
# Uptime at which the present process of the service was started.
started_at() { calc "$(unit ExecMainStartTimestampMonotonic) / 1000000"; }
start_ready() {
  systemctl start --no-block "$UNIT"
  within 180 is_ready || give_up "the service is not ready within 180 s: $(systemctl status --no-pager "$UNIT" 2>&1)"
}
# Five starts that did not end in order make the daemon wait for minutes, on purpose: a proof that kills it by the dozen takes
# its own kills out of that count.
forget_starts() { : >"$DATA/starts"; }
process_is_another() { p=$(main_pid) && [ "$p" != 0 ] && [ "$p" != "$1" ]; }

# ---- The API ----

# ask METHOD PATH [JSON]: prints the answer; fails unless it is 2xx.
ask() {
  if [ $# -gt 2 ]; then
    curl -sS -f -m 20 -X "$1" -H 'Content-Type: application/json' -d "$3" "$API$2"
  else
    curl -sS -f -m 20 -X "$1" "$API$2"
  fi
}
# field NAME: the first value of that name in the JSON on standard input.
field() {
  grep -o "\"$1\"[[:space:]]*:[[:space:]]*\"\{0,1\}[^\",}]*" | head -n 1 | sed 's/^[^:]*:[[:space:]]*"\{0,1\}//'
}
# part NAME: the first object of that name, without objects inside it.
part() { tr -d '\n' | sed -n "s/.*\"$1\"[[:space:]]*:[[:space:]]*{\([^{}]*\)}.*/{\1}/p"; }
chamber() { ask GET /chambers/cellar; }
beer_celsius() { chamber | part beer | field celsius; }
energised() { [ "$(chamber | part "$1" | field energised)" = true ]; }
released() { [ "$(chamber | part "$1" | field energised)" = false ]; }
ask_target() { ask PUT /chambers/cellar/target "{\"celsius\": $1}" >/dev/null; }
ask_for_cooling() { ask_target "$(calc "$(beer_celsius) - 3")"; }
ask_for_heating() { ask_target "$(calc "$(beer_celsius) + 3")"; }
ask_for_rest() { ask_target "$(beer_celsius)"; }

# ---- Lines, from the kernel's own trace ----

chip_label() { say "${CHIP:-pinctrl-bcm2711}"; }
# The kernel's number of a line: the base of its chip, from debugfs, and the line.
kernel_number() {
  base=$(sed -n "s/^gpiochip[0-9]*: GPIOs \([0-9]*\)-.*[ ,]$(chip_label)[,:].*/\1/p" /sys/kernel/debug/gpio | head -n 1)
  [ -n "$base" ] || base=$(sed -n "s/^gpiochip[0-9]*: GPIOs \([0-9]*\)-.*$(chip_label).*/\1/p" /sys/kernel/debug/gpio | head -n 1)
  [ -n "$base" ] || give_up "no chip with the label $(chip_label) in /sys/kernel/debug/gpio"
  say $((base + $1))
}
trace_on() {
  echo 0 >$TRACING/tracing_on
  echo boot >$TRACING/trace_clock
  echo >$TRACING/trace
  echo 1 >$TRACING/events/gpio/enable
  echo 1 >$TRACING/tracing_on
}
# What the two lines did since trace_on: UPTIME LINE energised|released|input WHO, one a line, in order.
trace() {
  cool_number=$(kernel_number "$COOL_LINE") heat_number=$(kernel_number "$HEAT_LINE")
  awk -v cool="$cool_number" -v heat="$heat_number" '
    /gpio_value: |gpio_direction: / {
      who = $1; at = 0
      for (i = 2; i < NF; i++) {
        if ($i ~ /^[0-9]+\.[0-9]+:$/) at = $i + 0
        if ($i == "gpio_value:" || $i == "gpio_direction:") {
          line = $(i + 1); kind = $i; what = $(i + 2); level = $(i + 3)
        }
      }
      if (line != cool && line != heat) next
      name = line == cool ? "valve" : "belt"
      if (kind == "gpio_value:") {
        if (what == "get") next
        state = ((line == cool) == (level == 0)) ? "energised" : "released"
      } else if (what == "in") state = "input"
      else next
      printf "%.3f %s %s %s\n", at, name, state, who
    }' $TRACING/trace
}
# how_often STATE [LINE]: how often a line was set so since trace_on.
how_often() { trace | awk -v state="$1" -v line="${2:-}" '$3 == state && (line == "" || $2 == line)' | wc -l; }
# spans: LINE FROM TO for each time energised; TO is "-" while it lasts.
spans() {
  trace | awk '
    $3 == "energised" && !($2 in since) { since[$2] = $1 }
    $3 != "energised" && ($2 in since) { print $2, since[$2], $1; delete since[$2] }
    END { for (line in since) print line, since[line], "-" }' | sort -k 2 -n
}
# Whether both lines were ever energised at once.
both_at_once() {
  trace | awk '
    { on[$2] = $3 == "energised" }
    on["valve"] && on["belt"] { both = 1 }
    END { exit !both }'
}
# level LINE: what is on the wire: of a simulated chip of the kernel, or by the board's own tool; else nothing is known.
level() {
  for file in /sys/devices/platform/gpio-sim.*/gpiochip*/sim_gpio"$1"/value; do
    if [ -r "$file" ]; then
      cat "$file"
      return
    fi
  done
  if command -v pinctrl >/dev/null; then
    case $(pinctrl get "$1") in *'| hi '*) say 1 ;; *'| lo '*) say 0 ;; esac
  fi
}
on_the_wire() { say "valve $(level "$COOL_LINE"), belt $(level "$HEAT_LINE")"; }
# On the wire both are released, or the wire can't be read here and the trace says so.
wires_released() {
  cool=$(level "$COOL_LINE") heat=$(level "$HEAT_LINE")
  if [ -n "$cool" ]; then [ "$cool" = 1 ] && [ "$heat" = 0 ]; else [ "$(spans | grep -c -- ' -$')" -eq 0 ]; fi
}
wire_energised() {
  case $1 in
    cooling) [ "$(level "$COOL_LINE")" = 0 ] ;;
    heating) [ "$(level "$HEAT_LINE")" = 1 ] ;;
  esac
}

# ---- Hands: what a program can't do to a board. A person is asked, or another file defines them anew. ----

by_a_person() {
  say ""
  say ">>> $*, then press Enter"
  read -r _ || give_up "nobody is there to: $*"
}
hand_pulls() { by_a_person "See that valve and belt rest released when their lines are inputs: the relay board, or a resistor, pulls line $COOL_LINE up and line $HEAT_LINE down"; }
hand_unplug() { by_a_person "Unplug the probe $1"; }
hand_plug() { by_a_person "Plug the probe $1 in again"; }
hand_short() { by_a_person "Short the 1-Wire data wire to ground"; }
hand_unshort() { by_a_person "Take the short away"; }
# A wire that lets few frames through whole can be had by a long loop of wire beside a motor; without one, answer "no".
hand_bad_crc() { return 1; }
hand_good_crc() { return 1; }
# The probe loses its power for a moment between a conversion and its reading.
hand_power_on_value() { return 1; }
hand_power_back() { return 1; }
hand_cut_power() { by_a_person "Pull the board's plug NOW. After the next start run this again"; }
if [ -n "${BOARD_HANDS:-}" ]; then
  # shellcheck source=/dev/null
  . "$BOARD_HANDS"
fi
