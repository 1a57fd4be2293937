#!/usr/bin/env bash
# Our kernels and readers beside general-purpose tools, those of them that are installed. On Debian:
#   apt-get install gcc python3-numpy python3-pandas r-base-core r-cran-data.table octave
# Run from anywhere; best on a machine that does nothing else. HAYWARDEN_DATA as in .ci/run.
set -euo pipefail
cd "$(dirname "$0")/../.."
data=${HAYWARDEN_DATA:-../shared/data}
if [ -d "$data" ]; then
	HAYWARDEN_DATA=$(cd "$data" && pwd)
	export HAYWARDEN_DATA
fi
go run ./bench/peers
