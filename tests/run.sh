#!/bin/sh
# Builds and runs every test: sh tests/run.sh [CMAKE_OPTION...]
# Installs what is missing on Debian (as root or through sudo). Builds in build/.
set -eu
cd "$(dirname "$0")/.."
. tests/install.sh
need_to_build
need /usr/include/doctest/doctest.h doctest-dev pdftocairo poppler-utils xmllint libxml2-utils \
    /usr/lib/python3/dist-packages/jsonschema python3-jsonschema /usr/include/rapidcheck.h librapidcheck-dev
# The files of a program compiled as one share what they instantiate: it takes half the time.
cmake -S . -B build -DCMAKE_UNITY_BUILD=ON -DTAUTLINE_TESTS=ON -DTAUTLINE_EXAMPLES=ON -DTAUTLINE_BENCH=OFF "$@" >/dev/null
cmake --build build --parallel "$(nproc)"
ctest --test-dir build --output-on-failure -j "$(nproc)"
