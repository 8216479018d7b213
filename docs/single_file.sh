#!/bin/sh
# Writes all of Tautline as one header, for projects that would rather carry a file than a dependency:
#
#   sh docs/single_file.sh FILE        ("-" is standard output)
#
# Each header comes once, after those it includes; the standard library's and Boost's includes stand once, at the top. The same
# sources always give the same file.
set -eu
into=${1:?usage: sh docs/single_file.sh FILE}
include=$(cd "$(dirname "$0")/../include/tautline" && pwd)
case $into in
-) ;;
*)
    # A file appears whole or not at all.
    trap 'rm -f "$into.part"' EXIT
    exec >"$into.part"
    ;;
esac

written() {
    cd "$include" && awk '
function fail(text) { print "single_file.sh: " text >"/dev/stderr"; failed = 1; exit 1 }
# The path of a header named in a file of a folder, "board/../core/x.hpp" made "core/x.hpp".
function path_of(folder, name) {
    name = folder name
    while (match(name, /[^\/.]+\/\.\.\//)) name = substr(name, 1, RSTART - 1) substr(name, RSTART + RLENGTH)
    return name
}
function take(path,    line, folder, depth, name, status) {
    if (path in taken) return
    taken[path] = 1
    folder = path
    if (!sub(/[^\/]*$/, "", folder)) folder = ""
    depth = 0
    while ((status = (getline line <path)) > 0) {
        if (line ~ /^#pragma once/) continue
        if (line ~ /^#if/) depth++
        if (line ~ /^#endif/) depth--
        if (line ~ /^#include "/) {
            if (depth) fail(path " includes a header of its own under a condition")
            split(line, parts, "\"")
            take(path_of(folder, parts[2]))
        } else if (line ~ /^#include </ && !depth) {
            outside[line] = 1
        } else {
            body[path] = body[path] line "\n"
        }
    }
    if (status < 0) fail("cannot read " path)
    close(path)
    order[++count] = path
}
BEGIN {
    take("job.hpp")
    while ((getline line <"version.hpp") > 0) if (line ~ /^#define TAUTLINE_VERSION_[MP]/) { split(line, parts, " "); version = version "." parts[3] }
    print "// Tautline " substr(version, 2) " in one file, made by docs/single_file.sh: change the headers it was made of, not this."
    print "// Needs C++20 and the headers of Boost, 1.74 or later."
    print "#ifndef TAUTLINE_SINGLE_FILE"
    print "#define TAUTLINE_SINGLE_FILE"
    print "#ifdef TAUTLINE_VERSION"
    print "#error Include either the single file or the headers of Tautline, not both."
    print "#endif\n"
    fflush()
    for (line in outside) print line | "LC_ALL=C sort"
    close("LC_ALL=C sort")
    for (i = 1; i <= count; ++i) {
        path = order[i]
        text = body[path]
        gsub(/\n\n\n+/, "\n\n", text)
        printf "\n// ---- %s\n%s", path, text
    }
    print "\n#endif // TAUTLINE_SINGLE_FILE"
}
END { exit failed }
' </dev/null
}
(written)
[ "$into" = - ] || mv "$into.part" "$into"
