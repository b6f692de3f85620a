#!/bin/sh
# Everything that has to pass. The first time it installs what is missing; stops at the first failure and names its stage.
set -eu
cd "$(dirname "$0")/.."
. web/tools.sh

STAGE=
trap '[ $? -eq 0 ] || printf "\nFailed: %s.\n" "$STAGE" >&2' EXIT
stage() {
  [ -z "$STAGE" ] || printf '   %s s\n' $(($(date +%s) - SINCE))
  STAGE=$1 SINCE=$(date +%s)
  say "$STAGE"
}

# What the stories go without where it can't be had: Chromium without windows, which tells them in two thirds of the time, and Firefox for the chief ones.
useful() {
  has apt-get && [ "$(id -u)" = 0 ] || return 0
  for PACKAGE in ${CHROMIUM:-chromium-headless-shell} ${FIREFOX:-firefox-esr}; do
    has "$PACKAGE" || (apt-get update -qq && apt-get install -y -qq --no-install-recommends "$PACKAGE") >/dev/null 2>&1 || true
  done
}

browser() {
  if ! { has chromium || has chromium-browser || [ -n "${CHROMIUM:-}" ]; } || ! { has chromedriver || [ -n "${CHROMEDRIVER:-}" ]; }; then
    if has apt-get && [ "$(id -u)" = 0 ]; then
      apt-get update -qq && apt-get install -y -qq --no-install-recommends chromium chromium-driver >/dev/null
    else
      stop "The browser stories need Chromium and its driver: install chromium and chromium-driver, or set CHROMIUM and CHROMEDRIVER."
    fi
  fi
  has node || stop "The browser stories need Node 20 or later."
  node_packages tests/browser
}

python() {
  # Made anew when the pins change, and when it does not run: half made, or of a Python that is gone.
  if ! cmp -s tests/reference/requirements.txt .venv/made-from || ! .venv/bin/python -c "import numpy" 2>/dev/null; then
    python3 -m venv --clear .venv || stop "The reference scripts need Python's venv (on Debian python3-venv)."
    .venv/bin/pip install --quiet -r tests/reference/requirements.txt
    cp tests/reference/requirements.txt .venv/made-from
  fi
}

stage "tools (5 to 6 minutes the first time on two cores)"
# Most of this waits for registries.
(browser; useful; python) &
REST=$!
page_tools
wait $REST

stage "format"
cargo fmt --check

stage "lint"
cargo clippy --quiet --locked --workspace --all-targets -- -D warnings
cargo clippy --quiet --locked -p web --target wasm32-unknown-unknown --all-targets -- -D warnings

stage "native tests and documentation tests"
cargo test --quiet --locked --workspace

stage "documentation"
RUSTDOCFLAGS="-D warnings" cargo doc --quiet --locked --no-deps --workspace --document-private-items

stage "tests in WebAssembly, in headless Chromium"
CHROMEDRIVER=${CHROMEDRIVER:-$(command -v chromedriver)}
export CHROMEDRIVER CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUNNER=wasm-bindgen-test-runner
cargo test --locked -p web --target wasm32-unknown-unknown --test wasm 2>&1 | tee target/wasm-tests.log
# Built for another target, such a file reports no test and success.
grep -Eq "test result: ok\. [1-9][0-9]* passed" target/wasm-tests.log

stage "page, and beside it the reference scripts: regenerate and compare"
# The page's compiler links on one core. A script that differs stops the run and has said why. Their matrices are small: a second thread would only wait.
# Nothing of the kernel is in them: while scripts, pins, demo layouts and what they wrote are what they were when all agreed, they would agree again.
references() {
  FROM=$(cat tests/reference/*.* demo-layouts/*.json | cksum)
  [ "$FROM" != "$(cat .venv/agreed 2>/dev/null)" ] || { echo "The reference scripts, and what they work from, are as they were when they last agreed."; return; }
  export OPENBLAS_NUM_THREADS=1
  printf '%s\n' changes compliance scipy mujoco loads axle edges tape space vary | xargs -P 2 -I '{}' .venv/bin/python 'tests/reference/{}_reference.py' --check
  printf '%s\n' "$FROM" >.venv/agreed
}
references &
build_page
wait $!
node tests/browser/size.mjs

stage "browser stories"
# Three files at a time, a browser each, so that two cores are busy while one waits; what failed is told once more at the end.
node --test --test-concurrency=3 --test-reporter=spec tests/browser/stories/*.test.mjs

stage "chief stories in Firefox"
chief() {
  # shellcheck disable=SC2046 # Files.
  BROWSER=firefox node --test --test-concurrency=2 --test-timeout=120000 --test-reporter=spec $(printf 'tests/browser/stories/%s.test.mjs ' "$@")
}
if has firefox-esr || [ -n "${FIREFOX:-}" ]; then
  chief drag links files lesson print
  # By itself: beside another Firefox it has come to no end, and not been found out why.
  chief film
else
  echo "Left out: there is no Firefox here (Debian's firefox-esr; FIREFOX says where another is)."
fi

stage "advisories, printed and not judged"
for folder in web tests/browser; do
  (cd "$folder" && npm audit 2>&1 | tail -3) || true
done
if has cargo-audit; then cargo audit || true; else echo "Crates are not asked about: there is no cargo-audit here."; fi

stage "done"
