#!/bin/sh
# Makes the page and checks it in a headless Chromium against the same answers of a program for this machine.
# usage: sh tests/page/run.sh [PAGE_ANSWERS]     the program; unless told otherwise that of build/
set -eu
root=$(cd "$(dirname "$0")/../.." && pwd)
answers=${1:-$root/build/examples/page/page_answers}
cd "$root"
. tests/install.sh
need chromium chromium bash bash python3 python3
[ -x "$answers" ] || { echo "$answers is not there: sh tests/run.sh builds it" >&2; exit 1; }
sh examples/page/build.sh
PYTHONDONTWRITEBYTECODE=1 exec python3 tests/page/check.py build/page/tautline.html "$answers"
