#!/usr/bin/env bash
# Makes the pictures of the README from the demo, with Debian's chromium and pngquant.
set -euo pipefail
cd "$(dirname "$0")/../.."
work=$(mktemp -d)
site=http://127.0.0.1:8499
go build -o "$work/haywarden" ./cmd/haywarden
"$work/haywarden" demo --listen "${site#http://}" >"$work/log" &
server=$!
trap 'kill $server; rm -rf "$work"' EXIT
for _ in $(seq 50); do
	curl -sf -o /dev/null "$site/farms" && break
	sleep 0.2
done
take() { # NAME PATH HEIGHT
	chromium --headless --no-sandbox --disable-gpu --hide-scrollbars --user-data-dir="$work/profile" \
		--window-size="1280,$3" --screenshot="$work/$1.png" "$site$2" 2>/dev/null
	pngquant --quality 70-90 --force -o "docs/pictures/$1.png" "$work/$1.png"
}
take round-april '/round?date=2026-04-15' 1000
take round-may '/round?date=2026-05-19' 1000
take round-september '/round?date=2026-09-08' 1000
meadow=$(curl -s "$site/round" | grep -o '/stands/[0-9a-f-]*">Ottermoss · Long Meadow' | head -n 1)
take stand-may "${meadow%%\"*}?date=2026-05-19" 1240
