#!/bin/sh
# Builds the example programs, prints the demo's bench sheet and draws it: sh examples/run.sh
# Installs what is missing on Debian (as root or through sudo). Builds in build/, as tests/run.sh does; how far it is goes to
# standard error, the sheet to standard output.
set -eu
cd "$(dirname "$0")/.."
. tests/install.sh
need_to_build
cmake -S . -B build -DCMAKE_UNITY_BUILD=ON -DTAUTLINE_TESTS=OFF -DTAUTLINE_EXAMPLES=ON -DTAUTLINE_BENCH=OFF >/dev/null
cmake --build build --parallel "$(nproc)" >&2
build/examples/bench_sheet/bench_sheet examples/jobs/ten_string_cittern.toml
build/examples/bench_sheet/bench_sheet examples/jobs/ten_string_cittern.toml --drawings build/drawings
