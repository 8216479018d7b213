#!/bin/bash
# Outside programs against an installed copy, a subdirectory, FetchContent, the Debian package and the single file; then the
# same two files through compilers, language versions, standard libraries and Boosts, with warnings as errors.
#
#   bash tests/embed/check.sh [WORK_FOLDER]
set -u
cd "$(dirname "$0")/../.." || exit 1
root=$PWD here=$PWD/tests/embed
work=${1:-build/embed}
mkdir -p "$work" && work=$(cd "$work" && pwd) || exit 1
passed=0
failed=0
# expect TITLE COMMAND...: the command succeeds. `said` holds what it printed.
expect() {
    local title=$1
    shift
    if said=$("$@" 2>&1); then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        echo "FAILED $title:"
        echo "$said" | cut -c1-300 | tail -12
        return 1
    fi
}
# refuse TITLE WORDS COMMAND...: the command fails and says these words.
refuse() {
    local title=$1 words=$2
    shift 2
    if said=$("$@" 2>&1) || ! grep -q -- "$words" <<<"$said"; then
        failed=$((failed + 1))
        echo "FAILED $title: was not refused with '$words':"
        echo "$said" | tail -12
    else
        passed=$((passed + 1))
    fi
}

# The newest Boost that Debian carries, unpacked: it cannot be installed beside the default one, which is the oldest.
packages() { apt-cache search --names-only '^libboost1\.[0-9]+-dev$' | cut -d' ' -f1 | sort -V; }
[ -n "$(packages)" ] || apt-get update -qq >/dev/null
newest=$(packages | tail -1)
boost=$work/$newest/usr
newest=${newest//[a-z-]/}
if ! [ -d "$boost" ]; then
    expect "get Boost $newest" sh -c "cd '$work' && rm -rf part *.deb && apt-get download -qq libboost$newest-dev &&
        dpkg-deb -x libboost$newest-dev_*.deb part && mv part libboost$newest-dev && rm libboost*.deb"
fi

# Package -------------------------------------------------------------------------------------------------------------
package=$work/package prefix=$work/prefix deb=$work/deb
rm -rf "$package" "$prefix" "$deb"
expect "configure" cmake -S . -B "$package" -DTAUTLINE_PROGRAMS=OFF
expect "install" cmake --install "$package" --prefix "$prefix"
expect "pack" sh -c "cd '$package' && cpack -G DEB"
expect "unpack the .deb" sh -c "dpkg-deb -x '$package'/libtautline-dev_*_all.deb '$deb'"
expect "the .deb holds what is installed" diff -r --exclude=doc "$prefix" "$deb/usr"
expect "every header is installed" diff -r include/tautline "$prefix/include/tautline"
expect "the .deb needs Boost" sh -c "dpkg-deb -f '$package'/*.deb Depends | grep -q 'libboost-dev (>= 1.74)'"

# Ways of embedding ---------------------------------------------------------------------------------------------------
# build WAY PROGRAM_FOLDER ARGUMENT...: configures and builds with CMake into $work/WAY.
build() {
    local into=$work/$1 from=$here/$2
    shift 2
    rm -rf "$into"
    cmake -S "$from" -B "$into" "$@" && cmake --build "$into" --parallel "$(nproc)"
}
expect "CMake, installed copy" build by_prefix two_files -DCMAKE_PREFIX_PATH="$prefix" &&
    expect "run it" "$work/by_prefix/two_files"
wanted=$(grep pull <<<"$said")
expect "CMake, .deb, newest Boost" build by_deb two_files "-DCMAKE_PREFIX_PATH=$deb/usr;$boost" &&
    expect "run it" "$work/by_deb/two_files"
expect "with that Boost" grep -q "^with Boost $newest\$" <<<"$said"
refuse "a version of other interfaces" "compatible" build by_version two_files -DCMAKE_PREFIX_PATH="$prefix" -DASKED=0.1
for way in OFF ON; do
    expect "CMake, sources, FetchContent $way" build "by_sources_$way" subdirectory -DTAUTLINE_SOURCES="$root" -DFETCH=$way &&
        expect "run it" "$work/by_sources_$way/table" && expect "prints the pull" grep -q '^65.3 N$' <<<"$said"
    expect "install the program" cmake --install "$work/by_sources_$way" --prefix "$work/by_sources_$way/prefix"
    expect "it alone is installed" test "$(cd "$work/by_sources_$way/prefix" && find . -type f)" = ./bin/table
done
for place in "$prefix" "$deb/usr"; do
    rm -rf "$work/makefile" && cp -r "$here/makefile" "$work/makefile"
    expect "pkg-config, $place" env PKG_CONFIG_PATH="$place/share/pkgconfig" make -C "$work/makefile" &&
        expect "run it" "$work/makefile/one_pull" && expect "prints the pull" test "$said" = "65.3 N"
done
# Compiled once for the program, by hand and with CMake. What one file solves is no longer in the other two.
by_hand=$work/by_hand
rm -rf "$by_hand" && mkdir -p "$by_hand"
hand() { (cd "$by_hand" && g++ -std=c++20 -DTAUTLINE_COMPILED "$@"); }
echo '#include <tautline/compiled.hpp>' >"$by_hand/tautline.cpp"
expect "by hand, compiled once" hand -I"$root/include" -c "$here/two_files/main.cpp" "$here/two_files/other.cpp" tautline.cpp &&
    expect "link it" hand main.o other.o tautline.o -o both && expect "run it" "$by_hand/both" &&
    expect "the same numbers" grep -qxF "$wanted" <<<"$said"
expect "what solves is in one file" sh -c "cd '$by_hand' && ! nm -C main.o | grep -q ' [WT] .*tautline::solve<double>' &&
    nm -C tautline.o | grep -q ' [WT] .*tautline::solve<double>'"
# CMake would compile the same file twice more.
export KEPT=$by_hand/tautline.o HEADERS=$root/include
launcher=-DCMAKE_CXX_COMPILER_LAUNCHER=$here/kept.sh
expect "CMake, compiled once" build compiled two_files -DCMAKE_PREFIX_PATH="$prefix" -DCOMPILED=ON "$launcher" &&
    expect "from the one file" grep -q '^taken .*tautline_of_two_files.cpp$' <<<"$said" &&
    expect "run it" "$work/compiled/two_files" && expect "the same numbers" grep -qxF "$wanted" <<<"$said"
expect "CMake, compiled by a library" build compiled_library subdirectory -DTAUTLINE_SOURCES="$root" -DFETCH=OFF -DCOMPILED=ON "$launcher" &&
    expect "from the one file" grep -q '^taken .*tautline_of_pulls.cpp$' <<<"$said" &&
    expect "run it" "$work/compiled_library/table" && expect "prints the pull" grep -q '^65.3 N$' <<<"$said"
refuse "without the one file" "tautline_compiled_" hand main.o other.o -o none
refuse "the one file twice" "multiple definition of .*tautline_compiled_once" hand main.o other.o tautline.o tautline.o -o twice
cp -r "$root/include" "$by_hand/later" && sed -i 's/\(TAUTLINE_VERSION_PATCH\) .*/\1 99/' "$by_hand/later/tautline/version.hpp"
expect "a file of another version" hand -I"$by_hand/later" -c "$here/two_files/other.cpp" -o later.o
refuse "two versions in one program" "tautline_compiled_.*_99" hand main.o later.o tautline.o -o versions
refuse "compiled.hpp without the definition" "Define TAUTLINE_COMPILED" g++ -std=c++20 -I"$root/include" -fsyntax-only "$by_hand/tautline.cpp"
# The shop's program is such an outside program, too.
expect "shop_tool, installed copy" build shop_tool ../../examples/shop_tool -DCMAKE_PREFIX_PATH="$prefix" &&
    expect "run it" sh -c "cd '$work/shop_tool' && rm -f shop.db && ./shop_tool shop.db add one octave_mandolin && ./shop_tool shop.db sheet one" &&
    expect "prints the sheet" grep -q '^All strings pull' <<<"$said"
expect "uninstall" cmake --build "$package" --target uninstall
expect "nothing is left" test -z "$(find "$prefix" -type f -o -name 'tautline*')"

# The single file, under the library's name: the README's program and a module's tests see no difference. Two copies of it
# meet in one program below.
single=$work/single
rm -rf "$single" && mkdir -p "$single/a/tautline" "$single/b/tautline"
expect "single file" sh docs/single_file.sh "$single/a/tautline/tautline.hpp"
expect "the same from another folder" sh -c "cd / && sh '$root/docs/single_file.sh' - >'$single/b/tautline/tautline.hpp'"
expect "the same again" cmp "$single"/[ab]/tautline/tautline.hpp
expect "it includes no other file of ours" sh -c "! grep -q '#include \"\|#pragma once' '$single/a/tautline/tautline.hpp'"
expect "every header is in it" diff \
    <(cd include/tautline && grep -L 'Included by name only' -- *.hpp */*.hpp | LC_ALL=C sort) \
    <(sed -n 's|^// ---- ||p' "$single/a/tautline/tautline.hpp" | LC_ALL=C sort)
expect "README's program" g++ -std=c++20 -I"$single/a" examples/small/one_string/main.cpp -o "$single/one_string" &&
    expect "run it" "$single/one_string" && expect "prints a pull" grep -q ' N (' <<<"$said"
# The tests name single headers: each of these now means the single file.
for header in $(cd include/tautline && ls -- */*.hpp job.hpp); do
    mkdir -p "$single/a/tautline/$(dirname "$header")"
    echo '#include <tautline/tautline.hpp>' >"$single/a/tautline/$header"
done
expect "tests of a module" g++ -std=c++20 -I"$single/a" -Itests tests/main.cpp tests/strings/tension.cpp -o "$single/tests" &&
    expect "run them" "$single/tests" && expect "they tested something" grep -q 'assertions: *[1-9]' <<<"$said"
expect "one file of the single file holds all" sh -c "printf '#define TAUTLINE_COMPILES\n#include <tautline/tautline.hpp>\n' |
    g++ -std=c++20 -DTAUTLINE_COMPILED -I'$single/a' -fsyntax-only -x c++ -"
refuse "single file beside the headers" "not both" g++ -std=c++20 -fsyntax-only -include include/tautline/version.hpp \
    -x c++ "$single/a/tautline/tautline.hpp"

# Compilers, versions, libraries, Boosts ------------------------------------------------------------------------------
# Every two choices of these columns meet in one line; "single" is two copies of the single file, one for each program file.
# compiler             version    include    rtti       Boost
combinations="
g++                    c++20      -I         -frtti     default
g++                    c++23      -isystem   -fno-rtti  newest
clang++                c++20      -isystem   -fno-rtti  default
clang++                c++2b      -I         -frtti     newest
clang++@-stdlib=libc++ c++20      -I         -fno-rtti  newest
clang++@-stdlib=libc++ c++2b      -isystem   -frtti     default
g++                    c++20      single     -frtti     default
"
warnings="-Wall -Wextra -Wpedantic -Wconversion -Wshadow -Wold-style-cast -Werror"
# One combination: two files, linked and run. Prints one line and what went wrong.
one() {
    local flags="${1/@/ } -std=$2 $warnings $4" main="$3 $root/include" other="$3 $root/include" into
    [ "$3" = single ] && main="-I $single/a" other="-I $single/b"
    [ "$5" = newest ] && flags+=" -isystem $boost/include"
    into=$(mktemp -d)
    # shellcheck disable=SC2086 # words on purpose
    if $flags $main -c "$here/two_files/main.cpp" -o "$into/main.o" >"$into/said" 2>&1 &&
        $flags $other -c "$here/two_files/other.cpp" -o "$into/other.o" >>"$into/said" 2>&1 &&
        $flags "$into/main.o" "$into/other.o" -o "$into/both" >>"$into/said" 2>&1 &&
        "$into/both" >"$into/printed" 2>"$into/said" && [ "$(cat "$into/printed")" = "$wanted" ]; then
        echo "passed $* $(cat "$into/said")"
    else
        echo "FAILED $*"
        cut -c1-300 "$into/said" | head -6
        cat "$into/printed" 2>/dev/null
    fi
    rm -rf "$into"
}
export -f one
export root here boost single warnings wanted
results=$(grep -v '^$' <<<"$combinations" | xargs -P "$(nproc)" -L1 bash -c 'one "$@"' one)
echo "$results"
oldest=$(packages | head -1)
expect "the oldest and the newest Boost were used" test "$(grep -o 'with Boost .*' <<<"$results" | sort -uV | xargs)" = \
    "with Boost ${oldest//[a-z-]/} with Boost $newest"
good=$(grep -c '^passed' <<<"$results")
passed=$((passed + good))
failed=$((failed + $(grep -vc '^$' <<<"$combinations") - good))
echo "embedding: $passed passed, $failed failed"
[ "$failed" -eq 0 ] && [ "$good" -gt 0 ]
