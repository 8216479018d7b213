#!/bin/sh
# How much of the library its tests run: sh tests/coverage.sh
#
# Builds the library's tests and outside checks without the optimiser into build/coverage, runs them, prints lines run by header
# folder and those that none runs, and fails below 95 %. Templates that nothing instantiates have no code and do not count.
set -eu
cd "$(dirname "$0")/.."
. tests/install.sh
need_to_build
need /usr/include/doctest/doctest.h doctest-dev gcovr gcovr
build=build/coverage
cmake -S . -B "$build" -DCMAKE_CXX_COMPILER=g++ -DCMAKE_CXX_FLAGS="--coverage -O0 -fno-inline" -DTAUTLINE_EXAMPLES=OFF \
    -DTAUTLINE_BENCH=OFF -DTAUTLINE_TESTS=ON >/dev/null
cmake --build "$build" --parallel "${JOBS:-$(nproc)}"
find "$build" -name '*.gcda' -delete
for test in "$build"/tests/test_*; do "$test" >"$build/log" 2>&1 || {
    tail -20 "$build/log"
    exit 1
}; done
gcovr -r . --filter 'include/' --object-directory "$build" --exclude-throw-branches --exclude-unreachable-branches \
    --txt "$build/coverage.txt" --html-details "$build/coverage.html" --json-summary "$build/coverage.json" --fail-under-line 95 &&
    status=0 || status=$?
awk '/^include|^TOTAL/' "$build/coverage.txt"
exit "$status"
