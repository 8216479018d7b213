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
[ "$failed" = 0 ] && echo "the documents show what is drawn"
exit "$failed"
