#!/bin/sh
# One warm solve of the four-arm demo: this kernel against SciPy and MuJoCo, in one run, as ratios.
set -eu
cd "$(dirname "$0")/.."
ours=$(cargo run --quiet --locked --release -p kernel --example warm -- demo-layouts/four-arm.json)
printf 'kernel %s s\n' "$ours"
.venv/bin/python tests/reference/timing.py | while read -r name seconds; do
  awk -v name="$name" -v theirs="$seconds" -v ours="$ours" 'BEGIN { printf "%s %s s: %.0f times as long\n", name, theirs, theirs / ours }'
done
