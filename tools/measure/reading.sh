#!/usr/bin/env bash
# How fast a large recording is read with all checks on, against the CSV library alone in the same run.
# tools/measure/reading.sh [MEGABYTES [ROUNDS]]; builds what is missing and prints versions, machine and medians.
set -eu
cd "$(dirname "$0")/../.."
mvn -q -o test-compile -pl intake -am
jars=$(find "${MAVEN_REPOSITORY:-$HOME/.m2/repository}" -name 'fastcsv-*.jar' -o -name 'jspecify-1.0.0.jar' | sort | tr '\n' ':')
grep -m1 'model name' /proc/cpuinfo 2>/dev/null || true
cut -d' ' -f1-3 /proc/loadavg 2>/dev/null | sed 's/^/load /' || true
java -XX:+UseSerialGC -Xms1500m -Xmn1000m -XX:+AlwaysPreTouch -cp "intake/target/test-classes:intake/target/classes:assessment/target/classes:visit/target/classes:$jars" \
    org.steamwright.intake.csv.ReadingSpeed "${1:-130}" "${2:-7}"
