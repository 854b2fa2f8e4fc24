#!/usr/bin/env bash
# Measures from the shell what the desk takes: from the command to the first page, memory then and after use, and how long
# its pages take to be answered.
# Usage: tools/measure/desk.sh [STARTS [REQUESTS]]; looks at the invented year in a folder of its own. Needs curl and Linux.
#        tools/measure/desk.sh national [STERILISERS [REQUESTS [SAVES]]]; pages and saves with an invented register of the size of a nation.
#        Needs Maven; DESK_SERVER=jdbc:postgresql://… names a database in the place of SQLite, empty or of an earlier measurement;
#        DESK_FILES=FOLDER keeps the files of the visits, which an earlier measurement's database needs again.
# Prints what it ran on. Measure on an idle machine: the load is printed because it decides what the figures are worth.
set -eu
root=$(cd "$(dirname "$0")/../.." && pwd -P)
if [ "${1:-}" = national ]; then
    printf 'machine    %s, %s cores\n' "$(sed -n 's/^model name[^:]*: //p' /proc/cpuinfo | head -n 1)" "$(getconf _NPROCESSORS_ONLN)"
    printf 'load       %s\n' "$(cut -d ' ' -f 1-3 /proc/loadavg)"
    "$root/steamwright" --version | sed 's/^/versions   /'
    exec mvn -q -B -f "$root/pom.xml" test -pl desk -am -Dtest=NationalSpeedTest -Dsurefire.failIfNoSpecifiedTests=false \
        "-Dsurefire.args=-Xmx1g -XX:+UseSerialGC -Ddesk.sterilizers=${2:-100000} -Ddesk.asked=${3:-500} -Ddesk.saves=${4:-1000} -Ddesk.drafts=${DESK_DRAFTS:-300} -Ddesk.server=${DESK_SERVER:-} -Ddesk.files=${DESK_FILES:-}"
fi
starts=${1:-11}
requests=${2:-200}
scratch=$(mktemp -d)
desk=
trap '[ -z "$desk" ] || kill "$desk" 2>/dev/null || true; rm -rf "$scratch"' EXIT
cd "$scratch"

sorted() { sort -n "$1" | awk -v unit="$2" '{t[NR] = $1} END {
    printf "%.3f %s (%.3f to %.3f)", t[int((NR + 1) / 2)], unit, t[1], t[NR]}'; }
memory() { awk '/^VmRSS/ {printf "%.1f\n", $2 / 1024}' "/proc/$desk/status"; }

# Starts the desk and waits for its first page; the address is known once the desk has said it.
start() {
    : >said
    "$root/steamwright" desk --demo --port 0 --no-browser >said 2>warned &
    desk=$!
    origin=
    while [ -z "$origin" ]; do
        kill -0 "$desk" 2>/dev/null || { cat warned >&2 && exit 1; }
        origin=$(sed -n 's/.*\(http:\/\/[^/]*\)\/.*/\1/p' said)
        sleep 0.01
    done
    curl -sf -o page "$origin/today"
}
stop() {
    kill "$desk"
    wait "$desk" 2>/dev/null || true
    desk=
}

# The first start builds what is stale and takes the invented year in.
start
stop
: >seconds
: >megabytes
for ((i = 0; i < starts; i++)); do
    began=$(date +%s%N)
    start
    ended=$(date +%s%N)
    awk -v n=$((ended - began)) 'BEGIN {print n / 1e9}' >>seconds
    memory >>megabytes
    [ ! -s warned ] || { echo 'the desk warned at its start:' >&2 && cat warned >&2; }
    stop
done
printf 'machine    %s, %s cores\n' "$(sed -n 's/^model name[^:]*: //p' /proc/cpuinfo | head -n 1)" "$(getconf _NPROCESSORS_ONLN)"
printf 'load       %s\n' "$(cut -d ' ' -f 1-3 /proc/loadavg)"
"$root/steamwright" --version | sed 's/^/versions   /'
printf 'starts     %s, median (least to most)\n\n' "$starts"
printf '%-44s %s\n' 'from the command to the first page' "$(sorted seconds s)"
printf '%-44s %s\n' 'memory (RSS) then' "$(sorted megabytes MB)"

# Pages: those that today's page leads to, each asked many times over one connection.
start
{
    echo /today
    grep -o 'href="/[^"#]*"' page | sed 's/^href="//; s/"$//' | grep -v '^/static/' || true
} | awk '!seen[$0]++' | head -n 20 >paths
printf '\n%-44s %10s %10s %10s\n' "page, asked $requests times" 'median ms' '95 % ms' 'most ms'
: >all
while read -r path; do
    # curl writes one line a request; the first 20 warm the page up and are not counted.
    for ((i = 0; i < requests + 20; i++)); do
        printf 'url = "%s"\noutput = "/dev/null"\n' "$origin$path"
    done >asked
    curl -sf -w '%{time_total}\n' -K asked | tail -n "$requests" >took || { echo "$path was not answered" >&2 && continue; }
    cat took >>all
    printf '%-44s %s\n' "$(printf '%s' "$path" | sed 's/[0-9a-f]\{8\}-[0-9a-f-]\{27\}/ID/')" \
        "$(sort -n took | awk '{t[NR] = $1 * 1000} END {
            printf "%10.1f %10.1f %10.1f", t[int((NR + 1) / 2)], t[int(NR * 0.95 + 0.5)], t[NR]}')"
done <paths
printf '%-44s %s\n' 'all of them' "$(sort -n all | awk '{t[NR] = $1 * 1000} END {
    printf "%10.1f %10.1f %10.1f", t[int((NR + 1) / 2)], t[int(NR * 0.95 + 0.5)], t[NR]}')"
printf '%-44s %s MB\n' 'memory (RSS) after that' "$(memory)"
stop
