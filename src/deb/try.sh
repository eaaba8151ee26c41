#!/bin/sh
# Takes a package through its life and prints what it saw: installed, run by the unit's own command line, killed, upgraded,
# removed, purged. For a Debian 12 or 13 that nobody needs, best a chroot; no service manager has to run there. As root:
#
#   try.sh PACKAGE.deb [NEWER.deb]
#
# It refuses where gylewarden is installed already. Exit status: 0 all was as it should be, 1 something was not.

set -u
export DEBIAN_FRONTEND=noninteractive
package=$1
newer=${2-$1}
config=/etc/gylewarden/gylewarden.toml
data=/var/lib/gylewarden
wrong=0
# As find names it below, where it is left out of the inventory: without links.
work=$(cd "${TMPDIR:-/var/tmp}" && mktemp -d "$(pwd -P)/gylewarden-try.XXXXXX") || exit 1

title() { printf '\n== %s\n' "$*"; }
# right WHAT COMMAND... ; not WHAT COMMAND...
right() {
  what=$1
  shift
  if "$@"; then echo "ok     $what"; else
    echo "WRONG  $what"
    wrong=$((wrong + 1))
  fi
}
not() { ! "$@"; }
empty() { [ -z "$1" ]; }

if dpkg-query -W gylewarden >/dev/null 2>&1; then
  echo "gylewarden is installed here already: this is for a Debian that nobody needs" >&2
  exit 1
fi

# Every path and every user and group there is, to be compared afterwards.
inventory() {
  find / -xdev \( -path /proc -o -path /sys -o -path /dev -o -path /run -o -path "$work" -o -path /root \
    -o -path /var/cache/apt -o -path /var/lib/apt -o -path /var/log -o -path /var/lib/dpkg \) -prune -o -print | sort
  sed 's/:.*//; s/^/user /' /etc/passwd
  sed 's/:.*//; s/^/group /' /etc/group
}

# The page's answer to a GET; nothing if there is none.
ask() {
  perl -MIO::Socket::INET -e '
    my $s = IO::Socket::INET->new(PeerAddr => "127.0.0.1:8080", Timeout => 10) or exit 1;
    print $s "GET $ARGV[0] HTTP/1.1\r\nHost: 127.0.0.1:8080\r\nConnection: close\r\n\r\n";
    local $/; print scalar <$s>;' "$1"
}

# Whether the page's answer holds these words; a probe has some seconds to be read.
says() {
  tries=0
  while [ "$tries" -lt 60 ]; do
    if ask "$1" >"$work/answer" && grep -qF "$2" "$work/answer"; then return 0; fi
    tries=$((tries + 1))
    sleep 1
  done
  sed 's/^/       | /' "$work/answer"
  return 1
}

# As the unit does it: its command line, its user, its folders.
start() {
  install -d -o gylewarden -g gylewarden -m 0750 /run/gylewarden
  line=$(sed -n 's/^ExecStart=//p' /usr/lib/systemd/system/gylewarden.service)
  begun=$(date +%s%N)
  # shellcheck disable=SC2086 # words on purpose
  (cd "$data" && umask 027 &&
    exec setpriv --reuid=gylewarden --regid=gylewarden --init-groups --bounding-set=-all --no-new-privs $line) \
    >"$work/log" 2>&1 </dev/null &
  daemon=$!
  until ask / 2>/dev/null | grep -q '200 OK'; do
    kill -0 "$daemon" 2>/dev/null || break
    perl -e 'select undef, undef, undef, 0.02'
  done
  wall=$((($(date +%s%N) - begun) / 1000000))
  hertz=$(getconf CLK_TCK)
  cpu=$(awk -v hertz="$hertz" '{ print int(($14 + $15) * 1000 / hertz) }' "/proc/$daemon/stat" 2>/dev/null)
}
end() {
  kill "-$1" "$daemon" 2>/dev/null
  wait "$daemon" 2>/dev/null
}
log() { sed 's/^/       | /' "$work/log"; }

title "This machine"
sed -n 's/^PRETTY_NAME=//p' /etc/os-release
uname -srm

# What the package depends on is no leftover of it.
depends=$(dpkg-deb -f "$package" Depends | sed 's/([^)]*)//g; s/|[^,]*//g; s/,/ /g')
# shellcheck disable=SC2086 # words on purpose
apt-get install -y -q --no-install-recommends $depends >"$work/apt" 2>&1 || cat "$work/apt"
java -version 2>&1 | head -n 1
inventory >"$work/before"

title "Installation"
begun=$(date +%s)
right "it installs" sh -c "apt-get install -y -q --no-install-recommends '$package' >'$work/apt' 2>&1"
echo "       in $(($(date +%s) - begun)) s; it said:"
grep '^gylewarden' "$work/apt" | sed 's/^/       | /'
right "an archive that fits is there" /usr/lib/gylewarden/make-archive --fits
find /var/cache/gylewarden -type f -printf '       | %M %u %s %p\n'
right "nothing is left of making it" empty "$(find /var/cache/gylewarden -name 'making*')"
right "the config is for root and the daemon's group alone" \
  [ "$(stat -c '%U:%G %a' "$config")" = 'root:gylewarden 640' ]
right "the data folder is the daemon's" [ "$(stat -c '%U:%G %a' "$data")" = 'gylewarden:gylewarden 750' ]
right "the daemon's user may use GPIO lines" sh -c "id -nG gylewarden | grep -qw gpio"
right "the service starts with the board" [ -e /etc/systemd/system/multi-user.target.wants/gylewarden.service ]
right "gylewarden is a command" gylewarden --version
gylewarden check | sed 's/^/       | /'
right "check of the config as installed" sh -c "gylewarden check >/dev/null"

title "Running, with the config as installed"
ls -A /tmp >"$work/tmp"
start
log
right "the page answers" sh -c "[ -n '$wall' ] && kill -0 $daemon"
echo "       after $wall ms, $cpu ms of them of the processor"
right "there is no chamber" says /api/chambers '[]'

right "the native library is the installed one" grep -q "/usr/lib/.*/gylewarden/libsqlitejdbc.so" "/proc/$daemon/maps"
right "the archive is used" grep -q /var/cache/gylewarden/classes.jsa "/proc/$daemon/maps"
end KILL
right "killed, it leaves nothing in the temporary folder" [ "$(ls -A /tmp)" = "$(cat "$work/tmp")" ]
right "killed, it leaves no library in the data folder" empty "$(find "$data" -name '*.so*')"

title "Running, with a chamber (a file as its probe, a relay that switches nothing)"
cp -p "$config" "$work/config"
echo 22.5 >"$data/beer"
chown gylewarden: "$data/beer"
cat >>"$config" <<CONFIG
[[probe]]
id = "beer"
kind = "file"
path = "$data/beer"
unit = "degrees"
[[relay]]
id = "cooler"
kind = "simulated"
[[chamber]]
id = "cellar"
target = "19.0C"
beer_probe = "beer"
cooling = "cooler"
CONFIG
for with in with without with without with without; do
  if [ $with = without ]; then mv /var/cache/gylewarden/classes.jsa "$work/classes.jsa"; fi
  start
  echo "       page after $wall ms, $cpu ms of the processor, $with the archive"
  end TERM
  if [ $with = without ]; then mv "$work/classes.jsa" /var/cache/gylewarden/classes.jsa; fi
done
start
right "the chamber is on the page" says /api/chambers '"celsius":22.5'

grep -E '^(VmRSS|VmHWM)' "/proc/$daemon/status" | sed 's/^/       | /'
right "check beside it" sh -c "gylewarden check >/dev/null"
right "relays-off by root, beside it" sh -c "gylewarden relays-off >/dev/null"
right "and its end" sh -c "gylewarden relays-off --resume >/dev/null"
right "a backup by root, into root's own folder" sh -c "gylewarden backup --to '$work/own.backup' >/dev/null && ls -l '$work/own.backup' | sed 's/^/       | /'"
end TERM
right "relays-off by root, without it" sh -c "gylewarden relays-off >/dev/null && gylewarden relays-off --resume >/dev/null"
right "a click by root" sh -c "echo yes | gylewarden click --relay cooler >/dev/null"
right "back from the backup" sh -c "gylewarden restore --from '$work/own.backup' >/dev/null"
right "all files in the data folder are the daemon's" empty "$(find "$data" ! -user gylewarden)"
find "$data" ! -user gylewarden -exec ls -ld {} + | sed 's/^/       | /'
start
right "it starts again after all that" kill -0 "$daemon"

title "An archive of another Java, and none"
# Never overwritten in its place: a running daemon has it in its memory.
rm /var/cache/gylewarden/classes.jsa
echo 'no archive' >/var/cache/gylewarden/classes.jsa
right "is no mistake and is not told" [ "$(gylewarden --version 2>&1)" = "$(java -jar /usr/lib/gylewarden/gylewarden.jar --version)" ]
right "is seen" not /usr/lib/gylewarden/make-archive --fits
touch /usr/lib/jvm
right "is made anew when Java's files change" \
  sh -c "dpkg-trigger --no-await /usr/lib/jvm && dpkg --triggers-only -a >'$work/apt' 2>&1 && /usr/lib/gylewarden/make-archive --fits"

title "Upgrades, with the daemon running"
right "it runs" kill -0 "$daemon"
for time in 1 2 3 4; do
  right "upgrade $time" sh -c "dpkg -i '$newer' >'$work/apt' 2>&1"
  perl -e 'select undef, undef, undef, 1.1'
done
find "$data/before-upgrade" -type f -printf '       | %M %u %s %p\n'
right "three copies are kept" [ "$(find "$data/before-upgrade" -name '*.backup' | wc -l)" = 3 ]
right "the config is as a person left it" grep -q 'id = "cellar"' "$config"
right "the record is there" [ -s "$data/gylewarden.db" ]
right "the daemon was not ended before its restart" kill -0 "$daemon"
end TERM
mv "$config" "$config.away"
echo '[store' >"$config"
right "an upgrade that can't copy the record is refused" not sh -c "dpkg -i '$newer' >'$work/apt' 2>&1"
grep '^gylewarden' "$work/apt" | sed 's/^/       | /'
touch /run/gylewarden-upgrade-without-copy
right "and goes on when a person says so" sh -c "dpkg -i '$newer' >'$work/apt' 2>&1"
rm -f /run/gylewarden-upgrade-without-copy
mv "$config.away" "$config"

title "Removal and purge"
right "it is removed" sh -c "apt-get remove -y -q gylewarden >'$work/apt' 2>&1"
right "config and record stay" [ -s "$data/gylewarden.db" ]
right "config stays" [ -e "$config" ]
right "it is installed again" sh -c "apt-get install -y -q --no-install-recommends '$newer' >'$work/apt' 2>&1"
right "with the same config" grep -q 'id = "cellar"' "$config"
right "it is purged" sh -c "apt-get purge -y -q gylewarden >'$work/apt' 2>&1"
inventory >"$work/after"
echo "       what is there now and was not before:"
diff "$work/before" "$work/after" | grep '^>' | sed 's/^/       | /'
left=$(diff "$work/before" "$work/after" | grep '^>' | grep -v '^> group gpio$')
right "nothing but the group gpio" empty "$left"
gone=$(diff "$work/before" "$work/after" | grep '^<')
right "nothing else is gone" empty "$gone"

rm -rf "$work"
echo
[ "$wrong" -eq 0 ] && echo "All was as it should be." || echo "$wrong were wrong."
[ "$wrong" -eq 0 ]
