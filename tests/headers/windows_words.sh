#!/bin/sh
# <windows.h> makes macros of common words. Every header compiles after it; where min and max are macros too, a sentence
# says what to do. The words are those of the Windows SDK; what mingw's own header defines is tried by .ci/platforms.
#
#   sh windows_words.sh [COMPILER [FLAG...]]
set -u
cd "$(dirname "$0")/../../include" || exit 1
[ $# -gt 0 ] || set -- g++
said=$(mktemp)
trap 'rm -f "$said"' EXIT
words="-Dnear= -Dfar= -Dsmall=char -Dhyper=int -Dinterface=struct -Dpascal= -Dcdecl= -DIN= -DOUT= -DOPTIONAL= -DCONST=const
    -DVOID=void -DTEXT(x)=x -DERROR=0 -DDELETE=1 -DNO_ERROR=0 -DTRUE=1 -DFALSE=0 -DABSOLUTE=1 -DRELATIVE=2 -DDIFFERENCE=11"
failed=0
# shellcheck disable=SC2086 # words on purpose
if ! find tautline -name '*.hpp' ! -path tautline/compiled.hpp | LC_ALL=C sort | sed 's|.*|#include <&>|' |
    "$@" -std=c++20 $words -I. -fsyntax-only -x c++ - >"$said" 2>&1; then
    echo "FAILED a header uses a word that is a macro of <windows.h>:"
    grep error "$said" | cut -c1-300 | head -6
    failed=$((failed + 1))
fi
# After a header of the standard library, for g++'s own takes these two macros away where it is read first.
printf '#include <cstddef>\n#define min(a, b) a\n#define max(a, b) b\n#include <tautline/core/real.hpp>\n' |
    "$@" -std=c++20 -I. -E -x c++ - >/dev/null 2>"$said"
if ! grep -q 'error.*Define NOMINMAX before it' "$said"; then
    echo "FAILED min and max as macros are not told"
    failed=$((failed + 1))
fi
echo "words of <windows.h>: $((2 - failed)) passed, $failed failed"
[ "$failed" -eq 0 ]
