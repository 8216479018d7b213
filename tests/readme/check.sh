#!/bin/sh
# What the documents print is true: the README's program is examples/small/one_string, the block after a line
# "<!-- source: FILE -->" is that file, and each block after a line
# "<!-- prints: COMMAND -->" is what that command prints today, lines "  ..." standing for what was left out.
# usage: check.sh [SOURCE_DIR BENCH_SHEET ONE_STRING], unless told otherwise those of build/
set -eu
root=${1:-$(cd "$(dirname "$0")/../.." && pwd)}
bench_sheet=${2:-$root/build/examples/bench_sheet/bench_sheet}
one_string=${3:-$root/build/examples/small/one_string}
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
failed=0

# Prints the text of the fenced block that follows the line LINE in a file.
block() {
    name=$2 awk '$0 == ENVIRON["name"] { wanted = 1; next } wanted && /^```/ { if (inside) exit; inside = 1; next } inside' "$1"
}

block "$root/README.md" "<!-- one_string -->" >"$scratch/program"
if ! diff -u "$scratch/program" "$root/examples/small/one_string/main.cpp"; then
    echo "README.md: the program differs from examples/small/one_string"
    failed=1
fi

# Programs that a document shows are the files it names, and every first program is shown.
for page in "$root/README.md" "$root"/docs/*.md; do
    sed -n 's|^<!-- source: \(.*\) -->$|\1|p' "$page" | while IFS= read -r file; do
        block "$page" "<!-- source: $file -->" | diff -u - "$root/$file" || echo "${page#"$root"/}: differs from $file"
    done
done >"$scratch/differ" 2>&1
for file in "$root"/tests/first_programs/*.cpp; do
    grep -qF "<!-- source: ${file#"$root"/} -->" "$root/docs/programs.md" || echo "docs/programs.md lacks ${file#"$root"/}"
done >>"$scratch/differ"
if [ -s "$scratch/differ" ]; then
    cat "$scratch/differ"
    failed=1
fi

# A program of a document that nobody sees is none of its, and a picture that is not shown, either.
for file in "$root"/examples/tutorial/*.cpp; do
    name=${file#"$root"/}
    grep -qF "$name" "$root/docs/tutorial.md" || grep -qF "(../$name)" "$root/docs/tutorial.md" || {
        echo "docs/tutorial.md lacks $name"
        failed=1
    }
done

# Where the commands run: the programs by name, the demo job, and the first hour's own file as found and as planned.
mkdir "$scratch/bin" "$scratch/run"
ln -s "$bench_sheet" "$scratch/bin/bench_sheet"
ln -s "$one_string" "$scratch/bin/one_string"
# Beside it stand the folders of the tutorial's programs and the others that documents show.
programs=$(cd "$(dirname "$one_string")/.." && pwd)
PATH="$scratch/bin:$programs/tutorial:$programs/strings_lesson:$PATH"
ln -s "$root/examples" "$scratch/run/examples"
cd "$scratch/run"
bench_sheet --new pinned --out my_job.toml
{ cat my_job.toml; awk '/^```toml$/ { inside = 1; next } /^```/ { inside = 0 } inside' "$root/docs/first-hour.md"; } >planned.toml

# The first hour says of every key that a new job begins with where it is measured.
for kind in pinned floating solid slotted_nylon zero_fret banjo fanned_bass; do
    bench_sheet --new $kind | awk '/^\[/ { gsub(/[][]/, ""); section = $0 "."; next } /^[a-z_0-9]+ = / { print section $1 }' |
        sort -u >"$scratch/keys"
    [ -s "$scratch/keys" ] || echo x.y >"$scratch/keys"
    while IFS= read -r key; do
        [ "$key" = title ] || grep -qF "\`$key\`" "$root/docs/first-hour.md" || {
            echo "docs/first-hour.md does not say where \"$key\" of $kind is measured"
            failed=1
        }
    done <"$scratch/keys"
done

for page in "$root/README.md" "$root"/docs/*.md; do
    grep '^<!-- prints: .* -->$' "$page" >"$scratch/commands" || continue
    while IFS= read -r line; do
        command=${line#<!-- prints: }
        command=${command% -->}
        block "$page" "$line" | grep -v '^  \.\.\.$' >"$scratch/excerpt" || true
        sh -c "$command" >"$scratch/printed" || true
        if [ ! -s "$scratch/excerpt" ]; then
            echo "${page#"$root"/}: nothing is printed after $line"
            failed=1
        elif ! awk 'NR == FNR { line[n++] = $0; next } i < n && $0 == line[i] { i++ }
                    END { if (i < n) { print "is not printed any more: " line[i]; exit 1 } }' n=0 i=0 "$scratch/excerpt" "$scratch/printed"; then
            echo "  in ${page#"$root"/}, after $line"
            failed=1
        fi
    done <"$scratch/commands"
done
[ "$failed" = 0 ] && echo "the documents say what is true"
exit "$failed"
