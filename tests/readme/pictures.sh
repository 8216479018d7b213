#!/bin/sh
# The pictures of the documents are those that the programs draw, and each is shown with words for who cannot see it.
# Letters are drawn with the fonts at hand, so what is compared is the size of each PNG and the words in each PDF.
#   pictures.sh SOURCE_DIR PICTURES TUTORIAL_NECK
set -eu
root=$1
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
"$2" "$scratch" >"$scratch/names"
"$2" "$scratch" pdf >/dev/null
"$3" "$scratch/tutorial_neck.png" >/dev/null
echo tutorial_neck.png >>"$scratch/names"
failed=0
complain() {
    echo "$1"
    failed=1
}
# Width and height as the file's head has them.
size() { od -An -tx1 -j16 -N8 "$1"; }

while IFS= read -r name; do
    [ -f "$root/docs/$name" ] || { complain "docs/$name is not there"; continue; }
    [ "$(size "$root/docs/$name")" = "$(size "$scratch/$name")" ] || complain "docs/$name is not of the size that is drawn today"
    grep -qE "!\\[[^]]{40,}\\]\\($name\\)" "$root"/docs/*.md || complain "no document shows $name with words of what it shows"
done <"$scratch/names"
# The glossary's numbers are those on its drawings, each once.
pdftotext -layout "$scratch/glossary_side.pdf" "$scratch/side" && pdftotext -layout "$scratch/glossary_above.pdf" "$scratch/above"
tr -cs 0-9 '\n' <"$scratch/side" >"$scratch/drawn"
tr -cs 0-9 '\n' <"$scratch/above" >>"$scratch/drawn"
grep . "$scratch/drawn" | sort -n >"$scratch/on_paper"
sed -n 's/^| \([0-9][0-9]*\) |.*/\1/p' "$root/docs/glossary.md" | sort -n >"$scratch/in_table"
cmp -s "$scratch/on_paper" "$scratch/in_table" || complain "docs/glossary.md does not name the numbers that its drawings have"
# So are those of the first hour, each picture's in the table below it. Rings and words keep off each other, on the page.
for pdf in "$scratch"/measure_*.pdf; do
    name=$(basename "$pdf" .pdf)
    pdftotext -bbox "$pdf" "$scratch/boxes"
    sed -n 's|.*<word[^>]*>\([0-9][0-9]*\)</word>.*|\1|p' "$scratch/boxes" | sort -n >"$scratch/on_paper"
    awk -v picture="($name.png)" 'index($0, picture) { here = 1; next } /^!\[|^#/ { here = 0 } here' "$root/docs/first-hour.md" |
        sed -n 's/^| \([0-9][0-9]*\) |.*/\1/p' | sort -n >"$scratch/in_table"
    cmp -s "$scratch/on_paper" "$scratch/in_table" || complain "docs/first-hour.md does not name the numbers that $name has"
    # In points; a ring is 4 mm wide from its middle. Words of one line stand as close as a space.
    awk -v name="$name" '
        function edge(key) { match($0, key "=\"[0-9.]*"); return substr($0, RSTART + length(key) + 2, RLENGTH - length(key) - 2) + 0 }
        function far(from, least, most) { return from < least ? least - from : from > most ? from - most : 0 }
        /<page/ { width = edge("width"); height = edge("height") }
        /<word/ {
            left[n] = edge("xMin"); right[n] = edge("xMax"); top[n] = edge("yMin"); bottom[n] = edge("yMax")
            ring[n] = $0 ~ />[0-9]+</
            x[n] = (left[n] + right[n]) / 2; y[n] = (top[n] + bottom[n]) / 2
            r = ring[n] ? 4 / 25.4 * 72 : 0
            if (x[n] - r < 0 || x[n] + r > width || y[n] - r < 0 || y[n] + r > height || left[n] < 0 || right[n] > width) bad = 1
            for (i = 0; i < n; ++i) {
                if (ring[i] && ring[n]) near = sqrt((x[i] - x[n]) ^ 2 + (y[i] - y[n]) ^ 2) < 8 / 25.4 * 72
                else if (ring[i]) near = sqrt(far(x[i], left[n], right[n]) ^ 2 + far(y[i], top[n], bottom[n]) ^ 2) < 4 / 25.4 * 72
                else if (ring[n]) near = sqrt(far(x[n], left[i], right[i]) ^ 2 + far(y[n], top[i], bottom[i]) ^ 2) < 4 / 25.4 * 72
                else near = left[i] < right[n] && left[n] < right[i] && top[i] < bottom[n] && top[n] < bottom[i]
                if (near) bad = 1
            }
            ++n
        }
        END { if (n < 6) bad = 1; exit bad }' n=0 bad=0 "$scratch/boxes" || complain "$name: labels lie on each other or off the page"
done
[ "$failed" = 0 ] && echo "the documents show what is drawn"
exit "$failed"
