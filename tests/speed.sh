#!/bin/sh
# How fast it is, after tests/run.sh has installed and built what it takes. First the built page (speed.mjs). Then one warm solve of the four-arm demo: this
# kernel against SciPy and MuJoCo, in one run, as ratios; 10,000 drawn axles at 13 travels, and a search with 8 freedoms, 6 aims and 16 starts, against
# SciPy, which does a part of them (its script says which). Nothing is judged: no test depends on a machine's speed.
set -eu
cd "$(dirname "$0")/.."
node tests/browser/speed.mjs
ours=$(cargo run --quiet --locked --release -p kernel --example warm -- demo-layouts/four-arm.json)
printf 'kernel %s s\n' "$ours"
.venv/bin/python tests/reference/timing.py | while read -r name seconds; do
  awk -v name="$name" -v theirs="$seconds" -v ours="$ours" 'BEGIN { printf "%s %s s: %.0f times as long\n", name, theirs, theirs / ours }'
done

cargo build --quiet --locked --release -p kernel --example long
asked="tests/reference/timed_errors.json tests/reference/timed_goals.json"
# shellcheck disable=SC2086 # Two files.
theirs=$(.venv/bin/python tests/reference/timing_long.py $asked)
cargo run --quiet --locked --release -p kernel --example long -- demo-layouts/four-arm.json $asked | while read -r name ours; do
  echo "$theirs" | awk -v name="$name" -v ours="$ours" '$1 == name { printf "%s: kernel %s s, scipy %s s: %.0f times as long\n", name, ours, $2, $2 / ours }'
done
