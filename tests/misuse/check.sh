#!/bin/sh
# Compiles each mistake of this folder and its passing twin, the same file with one thing changed.
#
#   sh check.sh COMPILER [FLAG...]
#
# Each file says in its first lines what the compiler's message must hold (`// expected: text`, or `// expected pattern:`
# for grep -E where compilers differ; all of them) and what it must not (`// forbidden: text`). The message may be 60 lines
# long: it is read by a person.
set -u
export LC_ALL=C
compiler=$1
shift
here=$(dirname "$0")
message=$(mktemp)
trap 'rm -f "$message"' EXIT
passed=0
failed=0

wrong() {
    failed=$((failed + 1))
    echo "FAILED $1 ($compiler): $2"
    sed 's/^/    /' "$message" | cut -c1-300 | head -20
}

for file in "$here"/*.cpp; do
    name=$(basename "$file" .cpp)
    compile() { "$compiler" -std=c++20 -fsyntax-only -Wall -Wextra -I"$here/../../include" "$@" "$file" >"$message" 2>&1; }
    if ! compile "$@"; then
        wrong "$name" "the twin without the mistake does not compile"
        continue
    fi
    if compile -DMISTAKE "$@"; then
        wrong "$name" "the mistake compiles"
        continue
    fi
    lines=$(wc -l <"$message")
    why=$(sed -n 's|^// expected: ||p' "$file" | while read -r text; do
        grep -qF -- "$text" "$message" || echo "the message lacks \"$text\""
    done
    sed -n 's|^// expected pattern: ||p' "$file" | while read -r text; do
        grep -qE -- "$text" "$message" || echo "the message lacks \"$text\""
    done
    sed -n 's|^// forbidden: ||p' "$file" | while read -r text; do
        if grep -qF -- "$text" "$message"; then echo "the message has \"$text\""; fi
    done)
    if [ -n "$why" ]; then
        wrong "$name" "$why"
    elif [ "$lines" -gt 60 ]; then
        wrong "$name" "the message has $lines lines"
    else
        passed=$((passed + 1))
        echo "ok $name ($lines lines)"
    fi
done
echo "$compiler: $passed passed, $failed failed"
[ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]
