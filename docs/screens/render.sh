#!/usr/bin/env bash
# Plays screens.txt with the bot on a Discord of this machine and draws each
# message as Discord shows it, dark and light, as wide as a phone.
#
#   docs/screens/render.sh [--readme] [FOLDER]     FOLDER is /tmp/screens where left out
#
# --readme also draws the pictures of README.md anew. It needs go, node, npm and
# chromium (apt install chromium, or CHROMIUM=/path/to/it).
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
readme=
if [ "${1:-}" = --readme ]; then readme=$here; shift; fi
folder=${1:-/tmp/screens}
mkdir -p "$folder"
[ -d "$here/node_modules" ] || npm ci --prefix "$here" --no-audit --no-fund --ignore-scripts
(cd "$here/../.." && go run ./cmd/discord-double screens docs/screens/screens.txt) >"$folder/screens.json"
node "$here/render.mjs" "$folder/screens.json" "$folder" $readme
