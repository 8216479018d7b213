#!/bin/sh
# The program printed in the README is the one in examples/one_string, and the README's excerpts of output are what the
# programs print today.
# usage: check.sh SOURCE_DIR BENCH_SHEET ONE_STRING
set -eu
root=$1 bench_sheet=$2 one_string=$3
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
failed=0

# Prints the text of the fenced block that follows the line "<!-- NAME -->".
block() {
    awk -v name="<!-- $1 -->" '$0 == name { wanted = 1; next } wanted && /^```/ { if (inside) exit; inside = 1; next } inside' "$root/README.md"
}
compare() {
    block "$1" >"$scratch/readme"
    if [ ! -s "$scratch/readme" ]; then
        echo "README.md: no block <!-- $1 -->"
        failed=1
    elif ! diff -u "$scratch/readme" "$2" >"$scratch/diff"; then
        echo "README.md, block <!-- $1 -->, differs from what is true:"
        cat "$scratch/diff"
        failed=1
    fi
}

compare one_string "$root/examples/one_string/main.cpp"
"$one_string" >"$scratch/printed"
compare one_string-prints "$scratch/printed"
"$bench_sheet" "$root/examples/jobs/octave_mandolin.toml" >"$scratch/sheet"
# The excerpt leaves out table rows; every line of it must stand in the sheet, in order.
block sheet-excerpt | grep -v '^  \.\.\.$' >"$scratch/excerpt"
[ -s "$scratch/excerpt" ] || { echo "README.md: no block <!-- sheet-excerpt -->"; failed=1; }
awk 'BEGIN { n = 0; i = 0 } NR == FNR { line[n++] = $0; next } i < n && $0 == line[i] { i++ } END { if (i < n) { print "README.md: the sheet has no line: " line[i]; exit 1 } }' \
    "$scratch/excerpt" "$scratch/sheet" || failed=1
[ "$failed" = 0 ] && echo "README.md says what is true"
exit "$failed"
