#!/bin/sh
# Writes docs/accuracy.md from what the tests in tests/published/ compare:
#
#   sh docs/accuracy.sh BUILD_DIR [--check]
#
# Runs the build's test_published_* programs. With --check it changes nothing and fails when the document is not what they say.
set -eu
root=$(cd "$(dirname "$0")/.." && pwd)
build=$(cd "$1" && pwd)
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
export TAUTLINE_ACCURACY="$scratch/rows"

# Every folder of outside checks must have been built: a missing one would only shorten the table.
for folder in "$root"/tests/published/*/; do
    name=$(basename "$folder")
    "$build/tests/test_published_$name" --no-version >"$scratch/log" 2>&1 || {
        cat "$scratch/log"
        exit 1
    }
done

# Rows: file, line, order, source, how known, quantity, checks, theirs, ours, difference, relative, allowed, unit.
LC_ALL=C sort "$scratch/rows" | LC_ALL=C awk -F '\t' '
    function safe(text) { gsub(/[|]/, "\\|", text); gsub(/</, "\\&lt;", text); gsub(/\*/, "\\*", text); gsub(/_/, "\\_", text); return text }
    function with_unit(number, unit) { return unit == "" || number == "" ? number : number " " unit }
    {
        unit = safe($13); rows++; checks += $7; known[$5]++
        source = $1 ":" $4 == before ? "" : safe($4); how = source == "" ? "" : $5; if (source != "") source = source " ([" safe($1) "](../tests/published/" $1 "))"
        before = $1 ":" $4
        body[rows] = "| " source " | " how " | " safe($6) " | " $7 " | " with_unit($8, unit) " | " with_unit($9, unit) " | " \
            with_unit($10, unit) " | " safe($11) " | " ($12 == "0" ? "equal" : with_unit($12, unit)) " |"
    }
    END {
        print "# Accuracy"
        print ""
        print "Every check against something outside the project: what was published, what the library says, how far apart they are."
        print ""
        print "Written by `docs/accuracy.sh` from what `tests/published/` compares; CI writes it again and compares. Where one row stands for"
        print "several checks (a table, a family of cases), it shows the one that comes nearest to what is allowed. Differences that are"
        print "rounding alone, below a part in 10^9, are shown as 0. The tests hold further properties that are not numbers to compare."
        print ""
        print rows " rows stand for " checks " comparisons. How the source is known, by rows:"
        print ""
        print "| known | rows | meaning |"
        print "|---|---|---|"
        n = split("seen|read in the source itself;seen, quoted|read where another quotes or reprints it;reference program|computed by a general program that the source names;computed in the test|by another method or from the definition, in the test;from memory|not looked up;common practice, no source|what benches do", line, ";")
        for (i = 1; i <= n; i++) {
            split(line[i], part, "|")
            if (part[1] in known) print "| " part[1] " | " known[part[1]] " | " part[2] " |"
            listed += known[part[1]]
        }
        print ""
        print "| source | known | quantity | checks | published | ours | difference | relative | allowed |"
        print "|---|---|---|---|---|---|---|---|---|"
        for (i = 1; i <= rows; i++) print body[i]
        if (listed != rows) { print "some rows do not say how their source is known" >"/dev/stderr"; exit 1 }
    }' >"$scratch/accuracy.md"

[ "$(wc -l <"$scratch/accuracy.md")" -gt 100 ] || {
    echo "docs/accuracy.sh: too few rows"
    exit 1
}
if [ "${2:-}" = --check ]; then
    diff -u "$root/docs/accuracy.md" "$scratch/accuracy.md" || {
        echo "docs/accuracy.md is not what the tests say; write it again: sh docs/accuracy.sh BUILD_DIR"
        exit 1
    }
    echo "docs/accuracy.md says what the tests compare"
else
    cp "$scratch/accuracy.md" "$root/docs/accuracy.md"
    echo "docs/accuracy.md: $(wc -l <"$root/docs/accuracy.md") lines"
fi
