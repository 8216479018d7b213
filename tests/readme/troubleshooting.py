#!/usr/bin/env python3
"""Every message that docs/troubleshooting.md is keyed by exists, and every compile-time mistake of tests/misuse has its entry.

A heading of the first half must be a sentence of the headers, and what tests/misuse expects. One of the second half must stand in the
block below it, which tests/readme/check.sh compares with what bench_sheet prints. "…" stands for what differs from case to case.
The commands that compile the documents' programs ask for warnings.
"""
import pathlib
import re
import sys

root = pathlib.Path(__file__).resolve().parents[2]
text = (root / "docs/troubleshooting.md").read_text(encoding="utf-8")
compiled, printed = text.split("## What the library and bench_sheet say\n")
# Neighbouring string literals are one sentence.
headers = "\n".join(re.sub(r'"\s*\n\s*"', "", p.read_text(encoding="utf-8")) for p in sorted((root / "include").rglob("*.hpp")))
mistakes = {p.stem: p.read_text(encoding="utf-8") for p in (root / "tests/misuse").glob("*.cpp")}
failed = []


def entries(half):
    return [part.split("\n", 1) for part in half.split("\n### ")[1:]]


named = set()
for heading, body in entries(compiled):
    if heading not in headers:
        failed.append(f'no header says "{heading}"')
    files = re.findall(r"`([a-z_]+)`", body.split("In `tests/misuse`: ", 1)[1])
    for name in files:
        if name not in mistakes:
            failed.append(f"tests/misuse/{name}.cpp is not there")
            continue
        named.add(name)
        expected = re.findall(r"^// expected(?: pattern)?: (.*)$", mistakes[name], re.M)
        alternatives = [a for e in expected for a in e.split("|")]

        def fits(alternative):
            # Type names and patterns are read with blanks for what stands between words.
            def plain(s):
                return re.sub(r"\W+", " ", re.sub(r"\{1,2\}|\.\*", " ", s)).replace("_", " ").lower().strip()
            return plain(heading) in plain(alternative) or plain(alternative) in plain(heading)
        if not any(fits(a) for a in alternatives):
            failed.append(f'tests/misuse/{name}.cpp expects another message than "{heading}"')
for name in sorted(set(mistakes) - named):
    failed.append(f"docs/troubleshooting.md has no entry for tests/misuse/{name}.cpp")

count = 0
for heading, body in entries(printed.split("\n## ")[0]):
    count += 1
    block = re.search(r"<!-- prints: .* -->\n```\n(.*?)\n```", body, re.S)
    if not block:
        failed.append(f'nothing is printed under "{heading}"')
        continue
    shown = re.sub(r"\s+", " ", block[1])
    place = 0
    for part in (p.strip() for p in heading.split("…")):
        at = shown.find(part, place)
        if at < 0:
            failed.append(f'"{part}" does not stand in what is printed under "{heading}"')
            break
        place = at + len(part)

# Without -Wall, g++ takes a quantity in printf without a word.
for page in ("README.md", "docs/tutorial.md"):
    commands = re.findall(r"g\+\+ -std=c\+\+20[^\n`]*", (root / page).read_text(encoding="utf-8"))
    failed += [f"{page}: -Wall is left out of \"{c}\"" for c in commands if "-Wall" not in c.split()]
    failed += [] if commands else [f"{page} says no longer how to compile a program"]

for one in failed:
    print(one)
print(f"{len(entries(compiled)) + count} messages: {len(failed)} failed")
sys.exit(1 if failed or not named or not count else 0)
