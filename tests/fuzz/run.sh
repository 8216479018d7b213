#!/bin/sh
# Fuzzes the job reader and the quantity parser with clang's libFuzzer: sh tests/fuzz/run.sh [--compile | SECONDS [SEED]]
# --compile: nothing but that. What was compiled is compiled again only after a change of its sources.
# One seed unless told otherwise, so that CI repeats itself; look further with others.
# Starts from the corpus in tests/fuzz/corpus and the demo jobs. What breaks is left in build/fuzz, ready to be run again and to
# be added to the corpus. Small job files and large ones are fuzzed apart, for one large one takes the time of hundreds; these go
# a little past the size that is read (longest_job_file), and begin with what is made here.
set -eu
cd "$(dirname "$0")/../.."
seconds=${1:-60}
seed=${2:-1}
build=build/fuzz
mkdir -p $build/job $build/large_job $build/quantity
flags="-std=c++20 -g -O1 -fsanitize=fuzzer,address,undefined -fno-sanitize-recover=all -Iinclude -Iexamples/job_file"
# compiled PROGRAM SOURCE...
compiled() {
    program=$build/fuzz_$1
    shift
    [ -x "$program" ] && [ -z "$(find include examples/job_file examples/text tests/fuzz -name '*.?pp' -newer "$program")" ] && return
    # shellcheck disable=SC2086 # words on purpose
    clang++ $flags -o "$program" "$@"
}
compiled quantity tests/fuzz/quantity.cpp &
compiling=$!
compiled job tests/fuzz/job.cpp examples/job_file/*.cpp
wait $compiling
[ "$seconds" != --compile ] || exit 0
cp examples/jobs/*.toml $build/job/
# large NAME BEGINNING TEXT COUNT: a job file of a beginning and a text so many times.
large() {
    { printf '%s' "$2" && yes "$3" | head -n "$4" | tr -d '\n'; } >"$build/large_job/$1.toml"
}
large dotted_key 'a' '.a' 100000
large dotted_section '[' '"a".' 200000
large lists 'a = ' '[' 500000
large sections_in_line 'a = ' '{a=' 300000
large strings '' '[[strings]]' 90000
large short_strings 'strings = [' '{},' 300000
large long_text 'title = "' 'x' 1048000
large long_text_beyond_ascii 'title = "' '±' 500000
large comment '#' '.' 1048000
large too_long '#' 'x' 1048600
seq -f 'k%.0f = 1' 80000 >$build/large_job/keys.toml
seq -f '[k%.0f]' 80000 >$build/large_job/sections.toml
# fuzz PROGRAM CORPUS OPTION...: looks until the time is over.
fuzz() {
    program=$1 corpus=$2
    shift 2
    (cd $build && "./fuzz_$program" -max_total_time="$seconds" -seed="$seed" -print_final_stats=0 -verbosity=0 "$@" "$corpus" \
        "../../tests/fuzz/corpus/$program")
}
fuzz quantity quantity -max_len=200 &
quantity=$!
fuzz job large_job -max_len=1050000 -timeout=20 &
large=$!
fuzz job job -max_len=20000 -timeout=10
wait $quantity
wait $large
echo "fuzzed for $seconds s: nothing broke"
