#!/bin/sh
# Builds the page and serves it on this machine. The first time it installs what is missing.
set -eu
cd "$(dirname "$0")/.."
. web/tools.sh

say "Tools: 5 to 6 minutes the first time on two cores, a second later on"
page_tools
PORT=${1:-8080}
say "The page: about 2 minutes the first time, then at http://127.0.0.1:$PORT/   (Ctrl-C ends it; another port: sh web/serve.sh PORT)"
cargo fetch --quiet --locked
exec trunk serve --release --locked --offline --no-autoreload --port "$PORT" --ignore .
