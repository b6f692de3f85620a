#!/bin/sh
# Makes the folder to upload, and checks it: sh web/publish.sh ADDRESS [FOLDER]
set -eu
cd "$(dirname "$0")/.."
. web/tools.sh

[ $# -ge 1 ] || stop "Usage: sh web/publish.sh https://example.org/ghostpin/ [FOLDER]"
has chromium || has chromium-browser || [ -n "${CHROMIUM:-}" ] || stop "The picture is made in Chromium: install it, or set CHROMIUM to where it is."
say "Tools: 5 to 6 minutes the first time on two cores, a second later on"
page_tools
# Its browser driver makes the picture.
node_packages tests/browser
say "The page"
build_page
say "The folder"
node web/publish.mjs "$1" "${2:-web/upload}"
