#!/bin/sh
# Coverage-guided fuzzing of every reader of text for so many seconds: `sh tests/fuzz.sh [SECONDS]`. Installs cargo-fuzz the first time. What broke a reader
# is left in tests/fuzz/artifacts, what led to new code in tests/fuzz/corpus; neither is committed.
set -eu
cd "$(dirname "$0")/fuzz"
cargo fuzz --version >/dev/null 2>&1 || cargo install --locked --version 0.13.1 cargo-fuzz
# Without a sanitizer, which the stable toolchain has none of: the project has no unsafe code.
mkdir -p corpus/readers
cargo run --quiet --release --bin corpus -- corpus/readers
cargo fuzz run --fuzz-dir . --sanitizer none --release readers -- -max_total_time="${1:-600}" -max_len=8000 -timeout=20
