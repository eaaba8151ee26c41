#!/bin/sh
# Proves with the kernel's own 1-Wire drivers that what goes wrong on the bus is told by its right name and releases the
# relays. Root, Debian, two probes, nothing plugged in.
#
# usage: onewire.sh FILE.deb|FILE.jar

# shellcheck disable=SC2317 # check and within call functions by their names

ONLY_PROBE=yes
# shellcheck source=src/board/board.sh
. "$(dirname "$0")/board.sh"

not() { ! "$@"; }
doubt_is() { [ "$(chamber | part beer | field doubt)" = "$1" ]; }
believed() { [ -n "$(beer_celsius)" ]; }
said_by_probes() {
  said=$(program probes 2>&1)
  printf '%s\n' "$said" | sed 's/^/    probes: /'
}
said() { printf '%s\n' "$said" | grep -Eq "$1"; }
# It names the fault; where no LINE is given, it has no temperature of the beer's probe, which the kernel may have dropped.
says_so() {
  if [ -n "$1" ]; then said "$1"; else not said "$beer +[-0-9.]+ C"; fi
}
cooling_again() {
  within 200 believed || missed "the beer probe is not believed again: $(chamber | part beer)"
  say "  believed again $(calc "$(now) - $mended") s after it was mended, at $(beer_celsius) °C"
  within 120 energised cooling || missed "cooling does not go on: $(chamber)"
}

# fault WORDS DOUBTS LINE BREAK MEND [PROBE]: while cooling runs, does BREAK; DOUBTS are the names that the page may call it,
# LINE is a pattern of what the command probes has to say.
fault() {
  words=$1 doubts=$2 line=$3 break=$4 mend=$5 probe=${6:-}
  say "== $words"
  within 120 energised cooling || give_up "cooling is not energised: $(chamber)"
  broken=$(now)
  if ! "$break" "$probe"; then
    say "  not shown here: this needs a simulated bus"
    return
  fi
  trace_on
  within 100 not believed || missed "the probe is believed $(calc "$(now) - $broken") s later"
  within 10 released cooling || missed "cooling is not released: $(chamber)"
  seen=$(chamber)
  doubt=$(printf '%s' "$seen" | part beer | field doubt)
  off=$(trace | awk '$2 == "valve" && $3 == "released" { print $1; exit }')
  say "  the page: $doubt; $(printf '%s' "$seen" | part reason | field sentence)"
  say "  the line was released $(calc "${off:-999999} - $broken") s after"
  case " $doubts " in
    *" $doubt "*) held "doubted as $doubt" ;;
    *) missed "doubted as \"$doubt\", not as one of: $doubts" ;;
  esac
  check "released within 45 s: 30 s without a good reading, and the bus's own time" true_that "${off:-999999} - $broken <= 45"
  check "on the wire both are released" wires_released
  said_by_probes
  check "the command probes says so" says_so "$line"
  # As seen from outside, nothing may start while it lasts.
  sleep 20
  check "nothing is energised while it lasts" [ "$(how_often energised)" -eq 0 ]
  "$mend" "$probe"
  mended=$(now)
  cooling_again
}
short() { hand_short; }
unshort() { hand_unshort; }

need_root
[ $# -eq 1 ] || {
  say "usage: onewire.sh FILE.deb|FILE.jar"
  exit 2
}
need_empty_board
hand_pulls
install_program "$1"
systemctl stop "$UNIT"
write_config
beer=$(probe_names | sed -n 1p)
say "kernel $(uname -r) $(uname -m); probes $(probe_names | tr '\n' ' '); the beer's is $beer"
said_by_probes
start_ready
within 60 believed || give_up "the beer probe is not read: $(chamber)"
ask_for_cooling

# The driver of older kernels shows the frame and that its checksum is wrong; that of newer ones shows an empty file, as for a
# probe that is not there.
fault "frames with a wrong checksum" "badChecksum silent" "$beer +(answers with damaged frames|does not answer)" hand_bad_crc hand_good_crc "$beer"
fault "the probe is unplugged" "silent doesNotAnswer" "" hand_unplug hand_plug "$beer"
fault "the probe lost its power, and shows its power-on value" "powerOnValue" "$beer .*85" hand_power_on_value hand_power_back "$beer"
fault "the bus is shorted" "silent doesNotAnswer badChecksum" "" short unshort
say "== a daemon that starts on a shorted bus"
systemctl stop "$UNIT"
trace_on
hand_short
start_ready
sleep 45
say "  the page: $(chamber | part beer)"
check "the probe is not believed" not believed
check "nothing is energised" [ "$(how_often energised)" -eq 0 ]
hand_unshort
mended=$(now)
cooling_again
finish
