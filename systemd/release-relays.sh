#!/bin/sh
# Releases every relay when the daemon is gone: the service manager runs this after every end of the service, a crash and
# a kill included. Plain POSIX shell and the gpiod tools, no Java: whatever broke the daemon must not break this.
#
# usage: release-relays.sh LIST
#
# LIST is the file release-list in the data folder, which the daemon writes before it energises anything:
#   gpio CHIP LINE LEVEL    drive this line of the chip with this label to this raw level
#   file TEXT PATH          write this text and a newline over the file
#   plug SECONDS RELAY      a plug on the network, which is out of reach from here: say what becomes of it
#   nothing                 alone: no relay of the config switches anything
# It is empty if the daemon could not write it.
#
# Exit status: 0 all released (of plugs on the network nobody knows), 1 at least one was not (the others are released all the same), 2 used wrongly.

set -u
# A relay that hangs must leave time for the others: the service manager waits 5 s for this script.
patience=1
failed=0

say() { echo "release-relays: $*" >&2; }

# The name (gpiochip0) of the first chip with this label, else of the first whose label contains it. Numbers of chips
# change from kernel to kernel, labels do not; gpioset of libgpiod 2 no longer takes a label.
chip_named() {
  chips=$(timeout "$patience" gpiodetect 2>/dev/null) || true
  exact=$(printf '%s\n' "$chips" | grep -F " [$1] " | head -n 1)
  [ -n "$exact" ] || exact=$(printf '%s\n' "$chips" | grep -F -- "$1" | head -n 1)
  printf '%s\n' "${exact%% *}"
}

release_line() {
  chip=$(chip_named "$1")
  if [ -z "$chip" ]; then
    say "no GPIO chip with the label $1, so line $2 was not released"
    return 1
  fi
  case $(gpioset --version 2>/dev/null | head -n 1) in
    *' v1.'*) timeout "$patience" gpioset -m exit "$chip" "$2=$3" ;;
    # Version 2 never exits unless the last period of its toggle list is 0.
    *) timeout "$patience" gpioset -t 0 -c "$chip" "$2=$3" ;;
  esac && return 0
  say "could not set line $2 of $chip to $3"
  return 1
}

# Overwrites without emptying the file first, which on a full disk could not be filled again.
release_file() {
  # shellcheck disable=SC2016 # the inner shell expands them
  timeout "$patience" sh -c 'printf "%s\n" "$1" 1<>"$2"' sh "$1" "$2" && return 0
  say "could not write $1 to $2"
  return 1
}

# One kind at a time: the lines first, for they cannot hang.
release_all() {
  while IFS= read -r entry || [ -n "$entry" ]; do
    rest=${entry#* }
    first=${rest%% *}
    rest=${rest#* }
    case $1:$entry in
      gpio:gpio\ *) release_line "$first" "${rest%% *}" "${rest#* }" || failed=1 ;;
      file:file\ *) release_file "$first" "$rest" || failed=1 ;;
      plug:plug\ *)
        say "relay $rest is a plug on the network: the broker tells it off when the daemon is gone; if it is not told, it goes off by its own timer $first s after it last was told on"
        ;;
      *:gpio\ * | *:file\ * | *:plug\ * | *:nothing | *:) ;;
      gpio:*)
        say "a line that is no relay: $entry"
        failed=1
        ;;
    esac
  done <"$list"
}

if [ $# -ne 1 ]; then
  say "usage: release-relays.sh LIST"
  exit 2
fi
list=$1
if [ ! -e "$list" ]; then
  say "there is no $list: the daemon has never got so far as to switch a relay; or its folder is away, then pull the plugs of all loads"
  exit 0
fi
if [ ! -r "$list" ]; then
  say "cannot read $list, so nothing was released: pull the plugs of all loads"
  exit 1
fi
if [ ! -s "$list" ]; then
  say "$list is empty, for the daemon could not write it, so nothing was released: pull the plugs of all loads"
  exit 1
fi
release_all gpio
release_all file
release_all plug
[ "$failed" -eq 0 ] || say "not everything was released: pull the plugs of the loads named above"
exit "$failed"
