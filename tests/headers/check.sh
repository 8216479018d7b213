#!/bin/sh
# Each header compiles alone without a warning; all of them link in two translation units, in either order.
#
# Most of a header's time is one that nearly all of them include. Such a base is compiled once and kept; a header is compiled
# after a base only where it includes that base itself, directly or through others. What its own lines see is then what they
# see alone: all includes stand above a header's own lines, so that the base has been read before these either way. A header
# that lacks an include lacks it still, and one below the base is compiled without it.
#
#   sh check.sh [--together] COMPILER [FLAG...]
#
# --together leaves out each alone. What stands alone for one compiler does for any other that reads the same standard library;
# of the second one only its warnings are wanted, and it gives them for all headers in one unit just as well.
set -u
together=false
[ "${1:-}" = --together ] && together=true && shift
include=$(cd "$(dirname "$0")/../../include" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
compile="$* -std=c++20 -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Werror -I$include"
cd "$include" || exit 1
# compiled.hpp is all of a source file, and is tried as one where programs embed it.
find tautline -name '*.hpp' ! -path tautline/compiled.hpp | LC_ALL=C sort >"$work/list"

# A line for each base and each header: BASE HEADER, the base with the most below it of those that the header includes, or -.
bases="tautline/core/invalid_input.hpp tautline/core/describe.hpp tautline/core/real.hpp tautline/neck/neck.hpp
    tautline/instrument/instrument.hpp tautline/setup/setup.hpp tautline/setup/solve.hpp tautline/job/job_setups.hpp"
python3 - "$work/list" $bases >"$work/pairs" <<'END' || exit 1
import os, re, sys

headers = open(sys.argv[1]).read().split()
named = {}
for header in headers:
    text = re.sub(r"//.*", "", open(header).read())
    text = re.sub(r"(?m)^#if .*\n#error .*\n#endif\n", "", text)  # stops the compiler or does nothing, wherever it stands
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
after = {}
for header in headers:
    all_below = below(header, set())
    plain = named[header] is None or any(named[h] is None for h in all_below)
    after[header] = next((b for b in bases if not plain and b in all_below), "-")
    print(after[header], header)
# Else one low header with a late include would make the check several times as long, and nobody would see why.
if list(after.values()).count("-") > len(headers) / 5:
    sys.exit("more than a fifth of the headers is compiled without a base: " + " ".join(h for h in headers if named[h] is None))
END
# A base is kept beside a file that includes it alone; the compiler looks there for what it kept.
keep='mkdir -p $0/$1 && echo "#include <$1>" >$0/$1/alone.hpp && '"$compile"' -x c++-header $0/$1/alone.hpp -o $0/$1/alone.hpp.gch'
one="$compile -fsyntax-only -x c++ \$0 -include \$1 /dev/null >$work/\$\$ 2>&1 || { echo FAILED \$1; cut -c1-300 $work/\$\$ | head -12; }"
count=0
failed=0
if ! $together; then
    # shellcheck disable=SC2086 # words on purpose
    printf '%s\n' $bases | xargs -P "$(nproc)" -n 1 sh -c "$keep" "$work" || exit 1
    # One line a header that does not stand alone.
    sed "s|^- |'' |; s|^\(tautline[^ ]*\) |'-include $work/\1/alone.hpp' |" "$work/pairs" |
        xargs -P "$(nproc)" -n 2 sh -c "$one" >"$work/failed"
    cat "$work/failed"
    failed=$(grep -c '^FAILED' "$work/failed")
    count=$(wc -l <"$work/list")
fi

sed 's|.*|#include <&>|' "$work/list" >"$work/forward.cpp"
LC_ALL=C sort -r "$work/list" | sed 's|.*|#include <&>|' >"$work/reverse.cpp"
echo 'int other(); int main() { return other(); }' >>"$work/forward.cpp"
echo 'int other(); int other() { return 0; }' >>"$work/reverse.cpp"
if printf '%s\n' forward reverse | xargs -P "$(nproc)" -n 1 sh -c "$compile"' -c $0/$1.cpp -o $0/$1.o' "$work" &&
    "$1" "$work/forward.o" "$work/reverse.o" -o "$work/both" && "$work/both"; then
    echo "all headers link twice, in either order"
else
    echo "FAILED two translation units with all headers"
    failed=$((failed + 1))
fi
echo "$1: $((count + 1 - failed)) passed, $failed failed"
[ "$failed" -eq 0 ] && [ -s "$work/list" ]
