#!/bin/sh
# Compiles each mistake of this folder and its passing twin, the same file with one thing changed.
#
#   sh check.sh COMPILER [FLAG...]
#
# Each file says in its first lines what the compiler's message must hold (`// expected: text`, or `// expected pattern:`
# for grep -E where compilers differ; all of them) and what it must not (`// forbidden: text`).
#
# A message is read by a person. From its first error up to the next it has 1500 characters at most, who includes whom left
# out, since that hangs on where the headers lie; and the first text or pattern expected stands in the first three lines
# from the one that says "error:" on.
set -u
export LC_ALL=C
compiler=$1
shift
here=$(dirname "$0")
folder=$(mktemp -d)
message=$folder/message
first=$folder/first
beginning=$folder/beginning
trap 'rm -rf "$folder"' EXIT
passed=0
failed=0

wrong() {
    failed=$((failed + 1))
    echo "FAILED $1 ($compiler): $2"
    sed 's/^/    /' "$message" | cut -c1-300 | head -20
}

# Whether a file holds what a line such as "// expected: text" asks for.
has() {
    case $1 in
    "// expected pattern: "*) grep -qE -- "${1#// expected pattern: }" "$2" ;;
    *) grep -qF -- "${1#// expected: }" "$2" ;;
    esac
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
    # The first error alone, without who includes whom and where the next one is; and that from its own line on.
    awk '/^In file included from |^                 from / { next } / error: / && errors++ || errors && /: In / { exit } { print }' "$message" \
        | sed "s|$here/../../||g" >"$first"
    length=$(wc -c <"$first")
    sed -n '/ error: /,$p' "$first" | sed "s|$name\.cpp||g" | head -n 3 >"$beginning"
    help=$(grep -m 1 '^// expected' "$file")
    why=$(grep '^// expected' "$file" | while read -r text; do
        has "$text" "$message" || echo "the message lacks \"$text\""
    done
    sed -n 's|^// forbidden: ||p' "$file" | while read -r text; do
        if grep -qF -- "$text" "$message"; then echo "the message has \"$text\""; fi
    done)
    if [ -n "$why" ]; then
        wrong "$name" "$why"
    elif [ "$length" -gt 1500 ]; then
        wrong "$name" "the first error has $length characters"
    elif ! has "$help" "$beginning"; then
        wrong "$name" "the first three lines of the error lack \"$help\""
    else
        passed=$((passed + 1))
        echo "ok $name ($length characters)"
    fi
done
echo "$compiler: $passed passed, $failed failed"
[ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]
