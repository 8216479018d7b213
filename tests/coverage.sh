#!/bin/sh
# How much of the library its tests run: sh tests/coverage.sh
#
# Builds the library's tests and outside checks without the optimiser into build/coverage, runs them and reports; fails below
# 95 % of all lines.
set -eu
cd "$(dirname "$0")/.."
. tests/install.sh
need_to_build
need /usr/include/doctest/doctest.h doctest-dev python3 python3
build=build/coverage
cmake -S . -B "$build" -DCMAKE_CXX_COMPILER=g++ -DCMAKE_CXX_FLAGS="--coverage -O0 -fno-inline" -DTAUTLINE_EXAMPLES=OFF \
    -DTAUTLINE_BENCH=OFF -DTAUTLINE_TESTS=ON >/dev/null
cmake --build "$build" --parallel "${JOBS:-$(nproc)}"
find "$build" -name '*.gcda' -delete
for test in "$build"/tests/test_*; do "$test" >"$build/log" 2>&1 || {
    tail -20 "$build/log"
    exit 1
}; done
python3 tests/coverage_report.py "$build" 95
