#!/bin/sh
# Changes the headers a little, one place at a time, and expects a test to notice:
#
#   sh tests/mutants.sh [COUNT]            draws as many (200) that compile; the commit decides which
#   sh tests/mutants.sh --listed [WORD]    the chosen ones of tests/mutants.txt, or those whose line holds WORD
#   sh tests/mutants.sh --help             what else it takes
#
# Works on a copy in build/mutants, and goes on there where it was stopped. Ends with how many were noticed, survived and are
# equivalent; docs/mutants.md says how to read it. Slow: not part of the default run.
set -eu
cd "$(dirname "$0")/.."
. tests/install.sh
need_to_build
need clang++ clang llvm-cov llvm ld.lld lld /usr/include/doctest/doctest.h doctest-dev python3 python3
exec python3 tests/mutants.py "$@"
