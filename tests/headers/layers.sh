#!/bin/sh
# Includes run one way: core <- strings, board, neck, supports <- action <- instrument <- setup <- work <- doubt <- job. The
# four in the middle do not include each other. Headers of the library name each other by relative paths.
set -u
cd "$(dirname "$0")/../../include/tautline" || exit 1
wrong=0
say() {
    echo "FAILED $1"
    wrong=$((wrong + 1))
}
count=0
below="core strings board neck supports action"
for file in */*.hpp; do
    count=$((count + 1))
    folder=${file%%/*}
    case $folder in
    core) allowed="core" ;;
    strings | board | neck | supports) allowed="core $folder" ;;
    action) allowed="core strings board neck supports action" ;;
    instrument) allowed="$below instrument" ;;
    setup) allowed="$below instrument setup" ;;
    work) allowed="$below instrument setup work" ;;
    doubt) allowed="$below instrument setup work doubt" ;;
    job) allowed="$below instrument setup work doubt job" ;;
    *) allowed="" && say "$file is in a folder that has no place among the layers" ;;
    esac
    case $folder in
    work | doubt | job) head=job.hpp ;;
    *) head=tautline.hpp ;;
    esac
    # Headers that need more than the rest (threads, SIMD flags) say so and are included by name.
    if grep -q 'Included by name only' "$file"; then
        if grep -qxF "#include \"$file\"" $head; then say "$file is in $head"; fi
    elif ! grep -qxF "#include \"$file\"" $head; then say "$file is not in $head"; fi
    if grep -q '^#include <tautline/' "$file"; then say "$file includes <tautline/...>; write a relative path"; fi
    # Which version it is, all may know.
    for named in $(sed -n 's|^#include "\(.*\)".*|\1|p' "$file"); do
        if ! [ -e "$folder/$named" ]; then say "$file includes $named, which is not there"; fi
        case $named in
        ../version.hpp) other=$folder ;;
        ../*)
            other=${named#../}
            other=${other%%/*}
            ;;
        *) other=$folder ;;
        esac
        case " $allowed " in
        *" $other "*) ;;
        *) say "$file includes $named: $folder must not know $other" ;;
        esac
    done
done
echo "$count headers, $wrong failed"
[ "$wrong" -eq 0 ] && [ "$count" -gt 0 ]
