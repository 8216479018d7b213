#!/bin/sh
# Each header compiles alone without a warning; all of them link in two translation units, in either order.
#
# Most of a header's time is one that nearly all of them include. Such a base is compiled once and kept; a header is compiled
# after a base only where it includes that base itself, directly or through others. What its own lines see is then what they
# see alone: all includes stand above a header's own lines, so that the base has been read before these either way. A header
# that lacks an include lacks it still, and one below the base is compiled without it.
#
#   sh check.sh COMPILER [FLAG...]
set -u
include=$(cd "$(dirname "$0")/../../include" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
compile="$* -std=c++20 -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Werror -I$include"
cd "$include" || exit 1
# compiled.hpp is all of a source file, and is tried as one where programs embed it.
find tautline -name '*.hpp' ! -path tautline/compiled.hpp | LC_ALL=C sort >"$work/list"

# A line for each base and each header: BASE HEADER, the base with the most below it of those that the header includes, or -.
bases="tautline/core/invalid_input.hpp tautline/core/describe.hpp tautline/neck/neck.hpp tautline/setup/solve.hpp"
python3 - "$work/list" $bases >"$work/pairs" <<'END' || exit 1
import os, re, sys

headers = open(sys.argv[1]).read().split()
named = {}
for header in headers:
    text = re.sub(r"//.*", "", open(header).read())
    own = [line for line in text.splitlines() if line.strip() and not line.startswith("#pragma once")]
    first = next((i for i, line in enumerate(own) if not line.startswith("#include")), len(own))
    late = any(line.lstrip().startswith("#include") for line in own[first:])
    folder = os.path.dirname(header)
    named[header] = None if late else [os.path.normpath(os.path.join(folder, n)) for n in re.findall(r'#include "(.*)"', text)]


def below(header, seen):
    for name in named[header] or []:
        if name not in seen:
            seen.add(name)
            below(name, seen)
    return seen


# A header with an include among its own lines, or above such a one, is compiled from nothing.
bases = sorted(sys.argv[2:], key=lambda b: len(below(b, set())), reverse=True)
for header in headers:
    all_below = below(header, set())
    plain = named[header] is None or any(named[h] is None for h in all_below)
    print(next((b for b in bases if not plain and b in all_below), "-"), header)
END
# A base is kept beside a file that includes it alone; both compilers look there for what they kept.
one="$compile -fsyntax-only -x c++ \$0 -include \$1 /dev/null >$work/\$\$ 2>&1 || { echo FAILED \$1; cut -c1-300 $work/\$\$ | head -12; }"
for base in $bases; do
    folder=$work/$base
    mkdir -p "$folder"
    echo "#include <$base>" >"$folder/alone.hpp"
    $compile -x c++-header "$folder/alone.hpp" -o "$folder/alone.hpp.gch" || exit 1
done

# One line a header that does not stand alone.
sed "s|^- |'' |; s|^\(tautline[^ ]*\) |'-include $work/\1/alone.hpp' |" "$work/pairs" |
    xargs -P "$(nproc)" -n 2 sh -c "$one" >"$work/failed"
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
