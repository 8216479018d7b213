#!/bin/sh
# The programs read, write and draw; the library computes: what bench_sheet, bench_page, drawing and shop_tool may not do.
set -u
cd "$(dirname "$0")/../../examples" || exit 1
wrong=0
# refuse WHAT PATTERN FOLDER...: no line of these programs may hold that.
refuse() {
    what=$1 pattern=$2
    shift 2
    if grep -nE "$pattern" "$@" --include=*.cpp --include=*.hpp -r; then
        echo "FAILED: $what"
        wrong=$((wrong + 1))
    fi
}
refuse "the library's inside is nobody's" 'kernel::' .
refuse "what is solved, worked and planned comes from answer(job)" \
    '(^|[^_[:alnum:]])(solve|do_work|make_plan|propagate|after_sanding|after_reset|steps_of|compare)\(' bench_sheet bench_page drawing
refuse "no physics in a sheet" 'std::(sqrt|sin|cos|tan|atan2?|exp|log2?|hypot)\(' bench_sheet bench_page job_file shop_tool
echo "programs: $wrong failed"
[ "$wrong" -eq 0 ]
