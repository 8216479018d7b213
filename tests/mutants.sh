#!/bin/sh
# Changes one formula at a time and expects a test to notice: sh tests/mutants.sh [WORD]
# Works on a copy. With WORD, only the mutants whose line holds it. Slow:
# not part of the default run. Ends with the number caught and the survivors.
set -u
root=$(cd "$(dirname "$0")/.." && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cp -r "$root/include" "$root/tests" "$work"
# What takes the time is compiling, and clang is through in two thirds of it.
command -v clang++ >/dev/null && default=clang++ || default=g++
compiler="${CXX:-$default} -std=c++20 -O0 -w -I$work/include -I$work/tests"
$compiler -c "$work/tests/main.cpp" -o "$work/main.o" || exit 1
# What no mutant changes is compiled once.
{
    echo '#include <doctest/doctest.h>'
    cat "$work"/include/tautline/*/*.hpp | grep -E '^#include <(boost/units/|[a-z_]+>)' | grep -v experimental | sort -u
} >"$work/prelude.hpp"
$compiler -x c++-header "$work/prelude.hpp" -o "$work/prelude.hpp.gch" || exit 1
compiler="$compiler -include $work/prelude.hpp"

# passes SOURCE: a test file alone compiles, and what it holds passes.
passes() {
    $compiler -DTAUTLINE_TEST_DATA="\"${1%/*}\"" "$work/main.o" "$1" -o "$work/test" >"$work/log" 2>&1 || return 2
    timeout 300 "$work/test" >"$work/log" 2>&1
}
caught=0
wrong=0
proven=
while IFS='|' read -r header suite files from to; do
    case $header in '' | '#'*) continue ;; esac
    case "$header|$suite|$from|$to" in *"${1:-}"*) ;; *) continue ;; esac
    what="$header: $from -> $to"
    result=
    # A test that fails anyway notices nothing.
    for f in $files; do
        case $proven in *" $suite/$f "*) continue ;; esac
        passes "$work/tests/$suite/$f.cpp" || { result="BROKEN ($suite/$f fails without it)" && continue; }
        proven="$proven $suite/$f "
    done
    original=$work/include/tautline/$header
    cp "$original" "$work/kept"
    FROM=$from TO=$to awk 'BEGIN { from = ENVIRON["FROM"]; to = ENVIRON["TO"] }
        !done && (at = index($0, from)) { $0 = substr($0, 1, at - 1) to substr($0, at + length(from)); done = 1 } { print }
        END { exit !done }' "$work/kept" >"$original"
    cmp -s "$original" "$work/kept" && result=STALE
    if [ -z "$result" ]; then
        result=SURVIVED
        # One file after the other, so that the first that notices is enough.
        for f in $files; do
            passes "$work/tests/$suite/$f.cpp"
            case $? in
            0) continue ;;
            2) grep -Eq 'static assertion failed|static_assert failed' "$work/log" && result="caught by the compiler" ||
                result="BROKEN ($(grep -m 1 error "$work/log" | cut -c1-200))" ;;
            *) result=caught ;;
            esac
            break
        done
    fi
    cp "$work/kept" "$original"
    echo "$result $what"
    case $result in caught*) caught=$((caught + 1)) ;; *) wrong=$((wrong + 1)) ;; esac
done <"$root/tests/mutants.txt"
echo "$caught passed, $wrong failed"
[ "$wrong" -eq 0 ] && [ "$caught" -gt 0 ]
