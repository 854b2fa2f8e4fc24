#!/usr/bin/env bash
# Measures from the shell how long one cycle takes: JVM start, reading, verdict, JSON; and the same with the report.
# Usage: tools/measure/startup.sh [RUNS]; the recording of 3,000 rows and six channels is written by formula.
# Prints what it ran on and the median, the shortest and the longest time. Measure on an idle machine.
set -eu
root=$(cd "$(dirname "$0")/../.." && pwd -P)
runs=${1:-15}
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
cd "$scratch"
recording=recording.csv
# Invented data: two pulses, heating, 1,200 s at about 134.5 °C, exhaust and drying, with a little ripple.
awk 'BEGIN {
    print "# Steamwright simulated recording - invented data, not a real cycle"
    print "Time [s],T1 [°C],T2 [°C],T3 [°C],T4 [°C],T5 [°C],P [kPa abs]"
    for (i = 0; i < 3000; i++) {
        if (i < 60) { t = 30; p = 101.3 }
        else if (i < 900) { t = 30 + (i - 60) * 0.1244; p = 101.3 + (i - 60) * 0.2434 }
        else if (i < 2100) { t = 134.5; p = 308.5 }
        else { t = 134.5 - (i - 2100) * 0.09; p = 308.5 - (i - 2100) * 0.2305; if (p < 101.3) p = 101.3 }
        printf "%d", i
        for (c = 0; c < 5; c++) printf ",%.2f", t + 0.05 * ((i * 7 + c * 3) % 5) - 0.02 * c
        printf ",%.1f\n", p
    }
}' >"$recording"

median() { sort -n "$1" | awk '{t[NR] = $1} END {printf "%.3f s (%.3f to %.3f)", t[int((NR + 1) / 2)], t[1], t[NR]}'; }
measure() {
    local name=$1 i start end status
    shift
    : >times
    status=0
    "$@" >/dev/null 2>&1 || status=$?
    case $status in
        0 | 1 | 4) ;;
        *) echo "$name: status $status, nothing to measure" >&2 && exit 1 ;;
    esac
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
said=(--kind empty-chamber --type B --at '134 °C' --criteria eu-en13060 --no-input --channel T1=reference-point
    --channel T2=free-chamber --channel T3=free-chamber --channel T4=free-chamber --channel T5=free-chamber
    --channel P=pressure)
measure 'steamwright --version' "$root/steamwright" --version
measure 'steamwright assess RECORDING --json' "$root/steamwright" assess "$recording" --json "${said[@]}"
measure 'steamwright assess RECORDING with report.pdf' "$root/steamwright" assess "$recording" "${said[@]}"
