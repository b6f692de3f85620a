# What the page and its tests are built with, in pinned versions. Sourced by web/serve.sh and tests/run.sh, in the top folder.
# Installs what is missing and skips what is there. On Linux (Debian, Ubuntu) and macOS, with rustup, a C compiler and Node at hand.

TRUNK=0.21.14
WASM_BINDGEN=0.2.129
TOOLCHAIN=1.95.0

say() { printf '\n== %s\n' "$*"; }
stop() { printf '%s\n' "$*" >&2; exit 1; }
has() { command -v "$1" >/dev/null 2>&1; }

# Errors of Trunk drown in a backtrace.
export RUST_BACKTRACE=0
PATH="$HOME/.cargo/bin:$PWD/web/node_modules/.bin:$PATH"

rust() {
  has cargo || stop "This needs Rust: install rustup (https://rustup.rs), then run this again."
  if has rustup; then
    # The pinned toolchain where it is or can be had; else the one that is there, which Cargo.toml's rust-version then judges.
    if rustup toolchain list | grep -q "^$TOOLCHAIN" || rustup toolchain install "$TOOLCHAIN" --profile minimal -c rustfmt -c clippy; then
      export RUSTUP_TOOLCHAIN=$TOOLCHAIN
    fi
    # The first answer can take a minute.
    rustup target list --installed | grep -q wasm32-unknown-unknown || rustup target add wasm32-unknown-unknown ||
      rustup target add wasm32-unknown-unknown || stop "The target wasm32-unknown-unknown can't be installed."
  fi
}

# cargo_tool PROGRAM PACKAGE VERSION MINUTES [FEATURES…]: prebuilt where cargo-binstall is there and finds it; else compiled without
# optimisation, which takes a third of the time and builds the page as fast: both tools wait for the compiler most of the time.
cargo_tool() {
  PROGRAM=$1 PACKAGE=$2 NUMBER=$3 MINUTES=$4
  shift 4
  if "$PROGRAM" --version 2>/dev/null | grep -qF " $NUMBER"; then return; fi
  if has cargo-binstall; then
    say "Fetching $PACKAGE $NUMBER"
    if cargo binstall --no-confirm --force --disable-strategies compile "$PACKAGE@$NUMBER"; then return; fi
  fi
  say "Compiling $PACKAGE $NUMBER: once, about $MINUTES minutes on two cores"
  # What is compiled stays until it is installed, so that one that was interrupted goes on where it was.
  CARGO_PROFILE_RELEASE_OPT_LEVEL=0 CARGO_PROFILE_RELEASE_LTO=off CARGO_PROFILE_RELEASE_CODEGEN_UNITS=64 CARGO_TARGET_DIR="$PWD/target/$PROGRAM-tool" \
    cargo install --locked --force "$PACKAGE" --version "$NUMBER" "$@" || stop "$PACKAGE $NUMBER can't be installed."
  rm -rf "target/$PROGRAM-tool"
}

# node_packages FOLDER: exactly what its lock file says, also where a package has gone missing since.
node_packages() {
  LISTED="$1/node_modules/.package-lock.json"
  if [ ! -e "$LISTED" ] || [ "$1/package-lock.json" -nt "$LISTED" ] || ! (cd "$1" && npm ls --silent >/dev/null 2>&1); then
    (cd "$1" && npm ci --silent --no-audit --no-fund) || stop "What $1/package-lock.json lists can't be installed."
    touch "$LISTED"
  fi
}

page_tools() {
  { has node && has npm; } || stop "The page is put together by Node 20 or later, with npm: install them, then run this again."
  rust
  # Side by side: while one waits for its downloads or for its last crate, the other has both cores.
  cargo_tool wasm-bindgen wasm-bindgen-cli $WASM_BINDGEN 3 &
  BINDGEN=$!
  # Without what it would fetch other tools with: they are all here.
  cargo_tool trunk trunk $TRUNK 5 --no-default-features
  # wasm-opt makes the page an eighth smaller.
  node_packages web
  wait "$BINDGEN" || exit 1
}

# Builds the page into web/dist.
build_page() {
  cargo fetch --quiet --locked
  trunk build --release --locked --offline
}
