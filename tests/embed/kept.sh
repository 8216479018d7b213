#!/bin/sh
# Stands before the compiler (CMAKE_CXX_COMPILER_LAUNCHER): kept.sh COMPILER ARGUMENT...
#
# The file that holds the larger functions takes a minute. Where CMake would compile the same line, with the same headers and no flag
# that matters, as the object KEPT was compiled from by hand, it gets that object. Of headers $HEADERS it knows. All else is
# compiled as asked.
object= depends= before= same=true
for argument; do
    case $before in
    -o) object=$argument ;;
    -MF) depends=$argument ;;
    -MT | -c) ;;
    -isystem) diff -rq "$HEADERS/tautline" "$argument/tautline" >&2 || same=false ;;
    *) case $argument in
        "$1" | -DTAUTLINE_COMPILED | -DBOOST_ALL_NO_LIB | -std=gnu++20 | -MD | -o | -MF | -MT | -c | -isystem) ;;
        -I*) diff -rq "$HEADERS/tautline" "${argument#-I}/tautline" >&2 || same=false ;;
        *) same=false ;;
        esac ;;
    esac
    before=$argument
done
# The source is the last argument.
if $same && [ -n "$object" ] && [ "$(cat "$before")" = "#include <tautline/compiled.hpp>" ]; then
    [ -z "$depends" ] || echo "$object:" >"$depends"
    echo "taken as it was compiled by hand: $before"
    exec cp "$KEPT" "$object"
fi
exec "$@"
