#!/usr/bin/env bash
# Makes the pictures of the README from the demo, with Debian's chromium and pngquant.
set -euo pipefail
cd "$(dirname "$0")/../.."
go build -o /tmp/haywarden-pictures ./cmd/haywarden
/tmp/haywarden-pictures demo --listen 127.0.0.1:8499 >/dev/null &
server=$!
trap 'kill $server' EXIT
sleep 3
take() { # NAME PATH HEIGHT
	chromium --headless --no-sandbox --disable-gpu --hide-scrollbars --user-data-dir="$(mktemp -d)" \
		--window-size="1280,$3" --screenshot="/tmp/$1.png" "http://127.0.0.1:8499$2" 2>/dev/null
	pngquant --quality 70-90 --force -o "docs/pictures/$1.png" "/tmp/$1.png"
}
take round-april '/round?date=2026-04-15' 1000
take round-may '/round?date=2026-05-19' 1000
take round-september '/round?date=2026-09-08' 1000
