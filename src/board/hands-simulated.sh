# shellcheck shell=sh
# Hands for a board whose pins are the kernel's GPIO simulator and whose 1-Wire bus is a simulated one, named by
# BOARD_HANDS. WIRE is the folder of the bus: temps, present, badcrc, poweron, stuck are lists with an item for each probe,
# bus_short is one number.
: "${WIRE:?the folder in which the simulated 1-Wire bus is steered}"

# wire LIST PROBE VALUE
wire() {
  index=$(($(probe_number "$2") - 1))
  awk -F , -v i="$index" -v value="$3" '{
    $(i + 1) = value
    all = $1
    for (k = 2; k <= NF; k++) all = all "," $k
    print all
  }' "$WIRE/$1" >/run/wire.new && cat /run/wire.new >"$WIRE/$1"
}
# The place of a probe in the lists: they count as its number does.
probe_number() { printf '%d\n' "0x$(printf '%s' "$1" | tail -c 2)"; }

pull() {
  for file in /sys/devices/platform/gpio-sim.*/gpiochip*/sim_gpio"$1"/pull; do
    [ ! -w "$file" ] || echo "$2" >"$file"
  done
}
hand_pulls() {
  pull "$COOL_LINE" pull-up
  pull "$HEAT_LINE" pull-down
}
hand_unplug() { wire present "$1" 0; }
hand_plug() { wire present "$1" 1; }
hand_short() { echo 1 >"$WIRE/bus_short"; }
hand_unshort() { echo 0 >"$WIRE/bus_short"; }
hand_bad_crc() { wire badcrc "$1" 1; }
hand_good_crc() { wire badcrc "$1" 0; }
hand_power_on_value() {
  wire stuck "$1" 1
  wire poweron "$1" 1
}
hand_power_back() { wire stuck "$1" 0; }
hand_temperature() { wire temps "$1" "$2"; }
hand_cut_power() {
  : >"${POWER_SWITCH:?the file that cuts the power}"
  sleep 60
}
