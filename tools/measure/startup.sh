#!/usr/bin/env bash
# Measures from the shell how long one cycle takes: JVM start, reading, verdict, JSON; and the same with the report.
# Usage: tools/measure/startup.sh [RECORDING [RUNS]]; without a recording a simulated one of the demo is used.
# Prints what it ran on and the median, the shortest and the longest time. Measure on an idle machine.
set -eu
root=$(cd "$(dirname "$0")/../.." && pwd -P)
runs=${2:-15}
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
cd "$scratch"
"$root/steamwright" demo --quiet --no-report
recording=${1:-$scratch/demo/recordings/03-a-empty.csv}

median() { sort -n "$1" | awk '{t[NR] = $1} END {printf "%.3f s (%.3f to %.3f)", t[int((NR + 1) / 2)], t[1], t[NR]}'; }
measure() {
    local name=$1 i start end
    shift
    : >times
    "$@" >/dev/null 2>&1 || true
    for ((i = 0; i < runs; i++)); do
        start=$(date +%s%N)
        "$@" >/dev/null 2>&1 || true
        end=$(date +%s%N)
        awk -v n=$((end - start)) 'BEGIN {print n / 1e9}' >>times
        rm -f result*.json report*.pdf
    done
    printf '%-44s %s\n' "$name" "$(median times)"
}

printf 'machine    %s, %s cores\n' "$(sed -n 's/^model name[^:]*: //p' /proc/cpuinfo | head -n 1)" "$(getconf _NPROCESSORS_ONLN)"
printf 'load       %s\n' "$(cut -d ' ' -f 1-3 /proc/loadavg)"
"$root/steamwright" --version | sed 's/^/versions   /'
printf 'recording  %s rows\nruns       %s each, median (shortest to longest)\n\n' "$(wc -l <"$recording")" "$runs"
said=(--kind empty-chamber --type B --at '134 °C' --criteria eu-en13060 --zone UTC --no-input)
measure 'steamwright --version' "$root/steamwright" --version
measure 'steamwright assess RECORDING --json' "$root/steamwright" assess "$recording" --json "${said[@]}"
measure 'steamwright assess RECORDING with report.pdf' "$root/steamwright" assess "$recording" "${said[@]}"
