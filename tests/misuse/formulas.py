#!/usr/bin/env python3
"""Every free formula says what it wants when it is given another kind, in the first three lines of the error.

    python3 formulas.py COMPILER [FLAG...]

Read from the headers' text: a formula is a function outside `kernel` with a parameter such as `a_length auto` or
`const length<R>&`. Its refusal
tells a call that compiles; that is compiled, and then with one argument after the other in another kind, and as a bare
number.
"""
import pathlib
import re
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
KINDS = re.findall(r"(?m)^TAUTLINE_KIND\((\w+),", (ROOT / "include/tautline/core/kinds.hpp").read_text())
# A parameter that a formula finds its number type from.
DEDUCED = re.compile(r"\ban?_\w+ auto\b|(?:^|, )const (?:" + "|".join(KINDS) + r")<R>&|^Modulus ")
# What works on any kind, or is the C library's by name.
OF_ANY_KIND = {"tautline/core/quantity.hpp"}
REFUSAL = re.compile(r'\b(\w+)\([^()]*(?:\([^()]*\)[^()]*)*\)\s*TAUTLINE_REFUSED\(\s*((?:"[^"]*"\s*)+)\)')
OTHER = ["1 * kelvin", "1 * kelvin * kelvin", "1"]


def without_kernel(text):
    """What anybody may call."""
    return re.sub(r"(?ms)^namespace ((?:tautline::)?(?:kernel|messages|detail)) \{.*?^\} // namespace \1$", "", text)


def arguments(call):
    """What stands between the brackets of a call, one by one."""
    found, depth, one = [], 0, ""
    for c in call[call.index("(") + 1 : -1]:
        depth += (c in "({") - (c in ")}")
        if c == "," and depth == 0:
            found.append(one.strip())
            one = ""
        else:
            one += c
    return found + [one.strip()]


def formulas():
    """Name of each formula, and the header it stands in; the call that each refusal tells."""
    named, calls = {}, {}
    for header in sorted((ROOT / "include").rglob("*.hpp")):
        text = re.sub(r"//[^\n]*", "", without_kernel(header.read_text()))
        short = header.relative_to(ROOT / "include")
        for match in re.finditer(r"(?m)^\[\[nodiscard\]\][^{;]*?\b(\w+)\(([^{;]*)\) \{", text):
            if DEDUCED.search(match[2]) and str(short) not in OF_ANY_KIND:
                named[match[1]] = short
        for name, sentence in REFUSAL.findall(text):
            call = "".join(re.findall(r'"([^"]*)"', sentence)).rpartition(": ")[2]
            if re.match(rf"(\w+::)*{name}\(", call):
                calls[name] = (short, call)
    return named, calls


def compiled(compiler, headers, lines):
    """The errors of a program of these lines, by line: each with its first three lines."""
    with tempfile.TemporaryDirectory() as folder:
        source = pathlib.Path(folder) / "formulas.cpp"
        before = [f"#include <{h}>" for h in sorted({str(h) for h in headers} | {"tautline/core/interval.hpp", "tautline/core/units.hpp"})]
        before += ["using namespace tautline;", "using namespace tautline::units;"]
        source.write_text("\n".join(before + lines) + "\n")
        limit = ["-ferror-limit=0"] if "clang" in compiler[0] else ["-fmax-errors=0"]
        run = subprocess.run(
            [*compiler, "-std=c++20", "-fsyntax-only", *limit, f"-I{ROOT / 'include'}", str(source)], capture_output=True, text=True, check=False
        )
    told, said = {}, run.stderr.splitlines()
    for k, line in enumerate(said):
        match = re.match(r".*formulas\.cpp:(\d+):\d+: error: ", line)
        if match:
            told.setdefault(int(match[1]) - len(before) - 1, "\n".join(said[k : k + 3]))
    return run.returncode, told, run.stderr


def main(compiler):
    named, calls = formulas()
    wrong = [f"{header}: {name} refuses other kinds without a word" for name, header in named.items() if name not in calls]
    wrong += [f"{header}: a refusal of {name}, which is no formula" for name, (header, _) in calls.items() if name not in named]
    if len(named) < 30:
        wrong.append(f"only {len(named)} formulas were found")
    headers = [header for header, _ in calls.values()]
    failed, told, said = compiled(compiler, headers, [f"const auto f{k} = {call};" for k, (_, call) in enumerate(calls.values())])
    if failed:
        wrong += [f"the call that a refusal tells does not compile: {text}" for text in told.values()] or [said[:2000]]
    mistakes = []
    for _, call in calls.values():
        given = arguments(call)
        for place, right in enumerate(given):
            if re.fullmatch(r"[\d.]+|.*(::|cents|percent_mc|\(\)).*|std::vector.*", right):
                continue  # a number, a choice, a model: no quantity
            for other in OTHER:
                mistakes.append(call[: call.index("(") + 1] + ", ".join(given[:place] + [other] + given[place + 1 :]) + ")")
    _, told, _ = compiled(compiler, headers, [f"const auto f{k} = {call};" for k, call in enumerate(mistakes)])
    for k, call in enumerate(mistakes):
        if k not in told:
            wrong.append(f"{call} compiles, or its error stands elsewhere")
        elif not re.search(r"wanted_are<|wanted (is|are) ", told[k]):
            wrong.append(f"{call}: the first three lines of the error do not say what is wanted\n{told[k]}")
    for line in wrong:
        print(line[:1000])
    print(f"{compiler[0]}: {len(named)} formulas, {len(mistakes)} mistakes, {len(wrong)} wrong")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:] or ["g++"]))
