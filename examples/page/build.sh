#!/bin/sh
# Makes the page: the library and what draws and writes a job's page, compiled to WebAssembly and put into one HTML file that
# opens from a file. What did not change since the last time is not compiled again.
# usage: sh examples/page/build.sh [FOLDER]     writes FOLDER/tautline.html; FOLDER is build/page unless told otherwise
set -eu
root=$(cd "$(dirname "$0")/../.." && pwd)
mkdir -p "${1:-$root/build/page}"
out=$(cd "${1:-$root/build/page}" && pwd)
cd "$root"
. tests/install.sh
need em++ emscripten ninja ninja-build python3 python3 \
    /usr/include/boost/units/quantity.hpp libboost-dev /usr/include/toml++/toml.h libtomlplusplus-dev

# The host's include folder holds another C library; only these two of it may be seen.
mkdir -p "$out/include"
ln -sfn /usr/include/boost "$out/include/boost"
ln -sfn /usr/include/toml++ "$out/include/toml++"
[ -e "$out/held.cpp" ] || echo '#include <tautline/compiled.hpp>' >"$out/held.cpp"

# Debian's emscripten finds its own JavaScript here; its cache of system libraries is complete and must stay where it is.
export NODE_PATH=/usr/share/nodejs
flags="-std=c++20 -Os -DNDEBUG -DTAUTLINE_COMPILED -fwasm-exceptions -Wall -Wextra -Wpedantic -Wconversion"
sources="$out/held.cpp examples/page/bridge.cpp examples/page/answers.cpp examples/page/tension_table.cpp examples/page/moving.cpp
    examples/page/job_sheet.cpp
    $(find examples/job_file examples/bench_page examples/drawing -name '*.cpp' ! -name cairo.cpp ! -name 'file*.cpp' ! -name drawing.cpp | LC_ALL=C sort)"
{
    echo "ninja_required_version = 1.5"
    echo "builddir = $out"
    echo "rule compile"
    echo "  command = em++ $flags -Iinclude -Iexamples/job_file -Iexamples/drawing -Iexamples/bench_page -isystem $out/include -MMD -MF \$out.d -c \$in -o \$out"
    echo "  depfile = \$out.d"
    echo "  deps = gcc"
    echo "  description = \$in"
    echo "rule link"
    echo "  command = em++ -Os -fwasm-exceptions \$in -o \$out -sMODULARIZE=1 -sEXPORT_NAME=tautline_module -sENVIRONMENT=web -sALLOW_MEMORY_GROWTH=1 -sFILESYSTEM=0 -sEXPORTED_FUNCTIONS=_page_room,_page_answer,_page_bytes_in_use,_page_solves,_page_explanations -sEXPORTED_RUNTIME_METHODS=UTF8ToString"
    echo "rule join"
    echo "  command = python3 examples/page/join.py examples/page \$in \$out"
    objects=
    for source in $sources; do
        object=$out/objects/$(echo "${source#"$out"/}" | tr / _).o
        echo "build $object: compile $source"
        objects="$objects $object"
    done
    echo "build $out/library.js | $out/library.wasm: link$objects"
    echo "build $out/tautline.html: join $out/library.js $out/library.wasm | examples/page/join.py $(echo examples/page/*.html examples/page/*.css examples/page/*.js) examples/jobs/ten_string_cittern.toml"
} >"$out/build.ninja"
nice -n 5 ninja -f "$out/build.ninja" "$out/tautline.html" ${PAGE_JOBS:+-j "$PAGE_JOBS"}
echo "$out/tautline.html: $(wc -c <"$out/tautline.html") bytes"
