#!/bin/sh
# A program whose output cannot be written says so and does not exit as if it were done, --help included.
#
#   sh unwritten.sh PROGRAM
set -u
program=$1
for argument in --help ""; do
    said=$("$program" $argument 2>&1 >&-)
    code=$?
    case $said in
    *"standard output cannot be written"*) ;;
    *) code="$code, but says: $said" ;;
    esac
    if [ "$code" != 1 ]; then
        echo "$program $argument: exit code $code; expected 1 and a sentence"
        exit 1
    fi
done
