#!/bin/sh
# Changes one formula at a time and expects a test to notice: sh tests/mutants.sh [WORD]
# Works on a copy. With WORD, only the mutants whose line holds it. Slow:
# not part of the default run. Ends with the number caught and the survivors.
set -u
root=$(cd "$(dirname "$0")/.." && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cp -r "$root/include" "$root/tests" "$work"
compiler="${CXX:-g++} -std=c++20 -O0 -I$work/include -I$work/tests"
$compiler -c "$work/tests/main.cpp" -o "$work/main.o" || exit 1
# What no mutant changes is compiled once.
{
    echo '#include <doctest/doctest.h>'
    cat "$work"/include/tautline/*/*.hpp | grep -E '^#include <(boost/units/|[a-z_]+>)' | grep -v experimental | sort -u
} >"$work/prelude.hpp"
$compiler -x c++-header "$work/prelude.hpp" -o "$work/prelude.hpp.gch" || exit 1
compiler="$compiler -include $work/prelude.hpp"

caught=0
wrong=0
while IFS='|' read -r header suite files from to; do
    case $header in '' | '#'*) continue ;; esac
    case "$header|$suite|$from|$to" in *"${1:-}"*) ;; *) continue ;; esac
    original=$work/include/tautline/$header
    cp "$original" "$work/kept"
    FROM=$from TO=$to awk 'BEGIN { from = ENVIRON["FROM"]; to = ENVIRON["TO"] }
        !done && (at = index($0, from)) { $0 = substr($0, 1, at - 1) to substr($0, at + length(from)); done = 1 } { print }
        END { exit !done }' "$work/kept" >"$original"
    what="$header: $from -> $to"
    if cmp -s "$original" "$work/kept"; then
        echo "STALE $what"
        wrong=$((wrong + 1))
    else
        # Only the files named, so that one changed header does not build a whole suite.
        sources=
        for f in $files; do sources="$sources $work/tests/$suite/$f.cpp"; done
        # shellcheck disable=SC2086 # words on purpose
        if ! $compiler -DTAUTLINE_TEST_DATA="\"$work/tests/$suite\"" "$work/main.o" $sources -o "$work/mutant" \
            >"$work/log" 2>&1; then
            if grep -q 'static assertion failed' "$work/log"; then
                echo "caught by the compiler $what"
                caught=$((caught + 1))
            else
                echo "BROKEN $what"
                grep -m 1 'error' "$work/log" | cut -c1-200
                wrong=$((wrong + 1))
            fi
        elif timeout 300 "$work/mutant" >"$work/log" 2>&1; then
            echo "SURVIVED $what"
            wrong=$((wrong + 1))
        else
            echo "caught $what"
            caught=$((caught + 1))
        fi
    fi
    cp "$work/kept" "$original"
done <"$root/tests/mutants.txt"
echo "$caught passed, $wrong failed"
[ "$wrong" -eq 0 ] && [ "$caught" -gt 0 ]
