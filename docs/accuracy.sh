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

# Rows: file, line, order, source, how known (and what it is), quantity, checks, theirs, ours, difference, relative, allowed, unit.
LC_ALL=C sort "$scratch/rows" | LC_ALL=C awk -F '\t' '
    function safe(text) { gsub(/[|]/, "\\|", text); gsub(/</, "\\&lt;", text); gsub(/\*/, "\\*", text); gsub(/_/, "\\_", text); return text }
    function with_unit(number, unit) { return unit == "" || number == "" ? number : number " " unit }
    {
        unit = safe($13); rows++; checks += $7
        parts = split($5, told, "; "); $5 = told[1]; kind = parts > 1 ? told[2] : "computed"; known[$5]++; kinds[kind]++
        source = $1 ":" $4 == before ? "" : safe($4); how = source == "" ? "" : $5; what = source == "" ? "" : kind; if (source != "") source = source " ([" safe($1) "](../tests/published/" $1 "))"
        before = $1 ":" $4
        body[rows] = "| " source " | " how " | " what " | " safe($6) " | " $7 " | " with_unit($8, unit) " | " with_unit($9, unit) " | " \
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
        n = split("seen|read in the source itself;seen, quoted|read where another quotes or reprints it;reference program|computed by a general program that the source names;computed in the test|by another method or from the definition, in the test;worked out of public recordings|the raw data are public, the numbers were worked out of them for the test;from memory|not looked up;common practice, no source|what benches do", line, ";")
        for (i = 1; i <= n; i++) {
            split(line[i], part, "|")
            if (part[1] in known) print "| " part[1] " | " known[part[1]] " | " part[2] " |"
            listed += known[part[1]]
        }
        print ""
        print "What the library is held against:"
        print ""
        print "| against | rows | meaning |"
        print "|---|---|---|"
        n = split("computed|a formula, a definition, a worked example, a standard or the average of a handbook;reference program|what a general program makes of the same case;measured|a thing that somebody loaded, recorded or weighed", line, ";")
        for (i = 1; i <= n; i++) {
            split(line[i], part, "|")
            print "| " part[1] " | " kinds[part[1]] + 0 " | " part[2] " |"
            sorted += kinds[part[1]]
        }
        print ""
        print "A measured row whose quantity says \"disagrees\" is one that the library does not meet: its allowed difference is how far it"
        print "misses, and [physics.md](physics.md) says why."
        print ""
        print "| source | known | against | quantity | checks | published | ours | difference | relative | allowed |"
        print "|---|---|---|---|---|---|---|---|---|---|"
        for (i = 1; i <= rows; i++) print body[i]
        if (sorted != rows) { print "some rows do not say what they are held against" >"/dev/stderr"; exit 1 }
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
