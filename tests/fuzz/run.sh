#!/bin/sh
# Fuzzes the job reader and the quantity parser with clang's libFuzzer: sh tests/fuzz/run.sh [SECONDS [SEED]]
# One seed unless told otherwise, so that CI repeats itself; look further with others.
# Starts from the corpus in tests/fuzz/corpus and the demo jobs. What breaks is left in build/fuzz, ready to be run again and to
# be added to the corpus.
set -eu
cd "$(dirname "$0")/../.."
seconds=${1:-60}
seed=${2:-1}
build=build/fuzz
mkdir -p $build/job $build/quantity
flags="-std=c++20 -g -O1 -fsanitize=fuzzer,address,undefined -fno-sanitize-recover=all -Iinclude -Iexamples/bench_sheet"
# shellcheck disable=SC2086 # words on purpose
clang++ $flags -o $build/fuzz_quantity tests/fuzz/quantity.cpp &
# shellcheck disable=SC2086
clang++ $flags -o $build/fuzz_job tests/fuzz/job.cpp examples/bench_sheet/job.cpp examples/bench_sheet/keys.cpp
wait $!
cp examples/jobs/*.toml $build/job/
(cd $build && ./fuzz_quantity -max_total_time="$seconds" -seed="$seed" -max_len=200 -print_final_stats=0 -verbosity=0 quantity ../../tests/fuzz/corpus/quantity) &
(cd $build && ./fuzz_job -max_total_time="$seconds" -seed="$seed" -max_len=20000 -timeout=10 -print_final_stats=0 -verbosity=0 job ../../tests/fuzz/corpus/job)
wait $!
echo "fuzzed for $seconds s: nothing broke"
