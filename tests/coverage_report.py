#!/usr/bin/env python3
"""Lines of the library that a coverage build ran: python3 tests/coverage_report.py BUILD_DIR LEAST_PERCENT

Adds up what gcov says of every object, prints each header that is not fully run with the lines that were not, and the share by
folder. Fails below the least share. Code that nothing instantiates is not there to be counted.
"""
import collections
import json
import pathlib
import subprocess
import sys

build, least = pathlib.Path(sys.argv[1]).resolve(), float(sys.argv[2])
include = pathlib.Path(__file__).resolve().parent.parent / "include/tautline"
runs = collections.defaultdict(collections.Counter)
for data in sorted(build.rglob("*.gcda")):
    said = subprocess.run(["gcov", "--json-format", "--stdout", str(data)], capture_output=True, text=True, cwd=build)
    for text in said.stdout.splitlines():
        for file in json.loads(text)["files"]:
            path = pathlib.Path(file["file"])
            if include in path.parents or path.is_relative_to(include):
                for line in file["lines"]:
                    runs[str(path.relative_to(include))][line["line_number"]] += line["count"]


def ranges(numbers):
    said, start, before = [], None, None
    for n in sorted(numbers) + [None]:
        if start is not None and (n is None or n != before + 1):
            said.append(str(start) if start == before else f"{start}-{before}")
            start = None
        if n is not None and start is None:
            start = n
        before = n
    return ", ".join(said)


folders = collections.defaultdict(lambda: [0, 0])
for header, lines in sorted(runs.items()):
    missed = [n for n, count in lines.items() if count == 0]
    folder = folders[header.split("/")[0]]
    folder[0] += len(lines) - len(missed)
    folder[1] += len(lines)
    if missed:
        print(f"{header}: {len(lines) - len(missed)} of {len(lines)}, not run: {ranges(missed)}")
for folder, (run, lines) in sorted(folders.items()):
    print(f"{folder:10} {run:5} of {lines:5} lines, {100 * run / lines:.1f} %")
run, lines = (sum(f[i] for f in folders.values()) for i in (0, 1))
print(f"{'all':10} {run:5} of {lines:5} lines, {100 * run / max(lines, 1):.1f} %")
sys.exit(0 if lines and 100 * run / lines >= least else 1)
