#!/bin/sh
# A program prints the lines that its source promises (`// prints: ...`), and has promised some.
#
#   sh check.sh SOURCE PROGRAM
set -u
printed=$("$2") || exit 1
lacking=0
promised=$(sed -n 's|^// prints: ||p' "$1")
[ -n "$promised" ] || { echo "$1 promises nothing"; exit 1; }
echo "$promised" | {
    while IFS= read -r line; do
        echo "$printed" | grep -qF -- "$line" || { echo "lacks: $line"; lacking=1; }
    done
    [ "$lacking" -eq 0 ]
} || { echo "$printed"; exit 1; }
