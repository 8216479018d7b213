#!/bin/sh
# Each header compiles alone without a warning; all of them link in two translation units, in either order.
#
#   sh check.sh COMPILER [FLAG...]
set -u
include=$(cd "$(dirname "$0")/../../include" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
compile="$* -std=c++20 -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Werror -I$include"
cd "$include" || exit 1
find tautline -name '*.hpp' | LC_ALL=C sort >"$work/list"

# One line a header that does not stand alone.
one="$compile -fsyntax-only -x c++ -include {} /dev/null >$work/\$\$ 2>&1 || { echo FAILED {}; cut -c1-300 $work/\$\$ | head -12; }"
xargs -P "$(nproc)" -I{} sh -c "$one" <"$work/list" >"$work/failed"
cat "$work/failed"
failed=$(grep -c '^FAILED' "$work/failed")

sed 's|.*|#include <&>|' "$work/list" >"$work/forward.cpp"
LC_ALL=C sort -r "$work/list" | sed 's|.*|#include <&>|' >"$work/reverse.cpp"
echo 'int other(); int main() { return other(); }' >>"$work/forward.cpp"
echo 'int other(); int other() { return 0; }' >>"$work/reverse.cpp"
if $compile -Wno-unused "$work/forward.cpp" "$work/reverse.cpp" -o "$work/both" && "$work/both"; then
    echo "all headers link twice, in either order"
else
    echo "FAILED two translation units with all headers"
    failed=$((failed + 1))
fi
count=$(wc -l <"$work/list")
echo "$1: $((count + 1 - failed)) passed, $failed failed"
[ "$failed" -eq 0 ] && [ "$count" -gt 0 ]
