#!/usr/bin/env python3
"""Every model says all it holds and is spelt the same way.

Read from the headers' text, which clang-format keeps regular: a public `struct basic_thing` takes `class R = double`, has
the alias `thing = basic_thing<double>` unless a function of that name makes it, and its description lists each of its data
members in their order. A function that finds the number type of a span takes a vector too.

    python3 models.py [FOLDER]      the folder with the headers, this project's own unless told otherwise
"""
import pathlib
import re
import sys

# What a description leaves out on purpose.
NOT_DESCRIBED = {
    # The described part is the results that are compared and told; the rest is what solving works on.
    "basic_setup": "findings names fret_steps own_steps octave_fret measures asked_y asked_x neck beam bow pulls crests board_points fret_leans "
    "crests_along posts behind_nut tail_strings bridge_strings string_ends",
    # What it was solved with: which frets it has.
    "basic_string_setup": "frets_behind",
    # The described part is the changes that are told; instruments and setups have descriptions of their own.
    "basic_setup_plan": "wanted start untouched kept base adjusted solved action_fret saddle_at_limit saddle_below_wood shortfalls remarks room",
    # The overlay's values are visited one by one, as a plan names them; which strings are new are places, not numbers.
    "basic_job_plan": "changes new_strings",
    # Doubts are of paths, not numbers of their own.
    "basic_bench_job": "doubts",
}


def plain(text):
    """Without comments and texts, so that braces count."""
    text = re.sub(r"//[^\n]*", "", text)
    text = re.sub(r'"(\\.|[^"\\])*"', '""', text)
    return re.sub(r"'(\\.|[^'\\])'", "' '", text)


def closing(text, start, opened="{", closed="}"):
    """The place behind the bracket that closes the one at `start`."""
    depth = 0
    for i in range(start, len(text)):
        depth += (text[i] == opened) - (text[i] == closed)
        if depth == 0:
            return i + 1
    raise ValueError("a bracket is not closed: " + text[start : start + 80])


def emptied(text, opened, closed):
    """With nothing between such brackets."""
    kept, i = "", 0
    while i < len(text):
        kept += text[i]
        if text[i] == opened:
            i = closing(text, i, opened, closed)
            kept += closed
        else:
            i += 1
    return kept


def without_templates(text):
    """Without what stands between angle brackets."""
    while True:
        shorter = re.sub(r"<[^<>]*>", "", text)
        if shorter == text:
            return text
        text = shorter


def data_members(body):
    """Names of the data members of a struct, in their order."""
    body = emptied(emptied(body, "(", ")"), "{", "}")
    # A function's body ends without a semicolon.
    body = re.sub(r"\)([^;{}]*)\{\}(?!;)", r")\1;", body)
    names = []
    for statement in body.split(";"):
        statement = without_templates(statement.replace("[[nodiscard]]", "")).strip()
        declared = re.split(r"=|\{", statement)[0].strip()
        if re.match(r"(using|static|friend|struct|enum|static_assert|template)\b", declared) or "(" in declared:
            continue
        if "operator" in declared or not re.search(r"\s[*&]?\w+$", declared):
            continue
        names += [re.search(r"\w+$", declared).group()]

    return names


def described_members(body):
    """Names of the members that a description visits; nothing for a struct without one."""
    at = re.search(r"static constexpr void describe\(", body)
    if not at:
        return None
    start = body.index("{", closing(body, at.end() - 1, "(", ")"))
    return re.findall(r"self\.(\w+)\.\.\.", body[start : closing(body, start)])


def function_names(text):
    """Names of the functions of a header's namespace."""
    start = text.find("namespace tautline {")
    if start < 0:
        return set()
    opened = text.index("{", start)
    inside = text[opened + 1 : closing(text, opened) - 1]
    return set(re.findall(r"(?<![\w.:>])(\w+)\(", emptied(emptied(inside, "{", "}"), "(", ")")))


def spans_alone(text):
    """Names of the functions that cannot take a vector: the number type comes from a span, and no overload has a vector."""
    found = set()
    for function in re.finditer(r"template <class R>\n[^\n;]*?\b(\w+)\(((?:[^()]|\([^()]*\))*)\)", text):
        name, parameters = function.groups()
        deduced = [p for p in parameters.split(",") if "std::span<const" in p and "type_identity" not in p]
        if deduced and not re.search(rf"\b{name}\(const std::vector<", text):
            found.add(name)
    return sorted(found)


def structs(text):
    """Of a header: template parameters, name and body of each struct."""
    for found in re.finditer(r"(?:template <([^;{}]*?)>\s*(?:requires[^\n]*\n)?)?\bstruct (\w+)\b([^;{}()]*)\{", text):
        end = closing(text, found.end() - 1)
        yield found.group(1), found.group(2), text[found.end() : end - 1]


def main():
    root = pathlib.Path(sys.argv[1] if len(sys.argv) > 1 else pathlib.Path(__file__).parents[2] / "include/tautline")
    wrong, count, listed = [], 0, 0
    for header in sorted(root.glob("*/*.hpp")):
        text = plain(header.read_text())
        where = header.relative_to(root)
        # What is inside a namespace of its own is nobody's.
        for inside in ("kernel", "spelling", "description", "messages"):
            while at := re.search(r"namespace (tautline::)?" + inside + r" \{", text):
                end = closing(text, at.end() - 1)
                text = text[: at.start()] + text[end:]
        functions = function_names(text)
        wrong += [f"{where}: {name} takes a span and no vector" for name in spans_alone(text)]
        for parameters, name, body in structs(text):
            members, visited = data_members(body), described_members(body)
            for member in re.findall(r"^ *field<[^;\n]*> (\w+)(?:\{\})?;", body, re.M):
                wrong.append(f"{where}: {member} of {name} has no default: it is needed<>")
            if visited is not None:
                listed += 1
                members = [m for m in members if m not in NOT_DESCRIBED.get(name, "").split()]
                if members != visited:
                    missing = [m for m in members if m not in visited]
                    wrong.append(
                        f"{where}: describe of {name} "
                        + (f"leaves out {', '.join(missing)}" if missing else f"goes {visited}, the members {members}")
                    )
            if not name.startswith("basic_"):
                continue
            count += 1
            alias = name.removeprefix("basic_")
            if not re.fullmatch(r"\w+(::\w+)? R = double|class R = double", parameters or ""):
                declared_before = re.search(
                    r"template <\w+(::\w+)? R = double>\s*struct " + name + r";", text
                )
                if not declared_before:
                    wrong.append(f"{where}: {name} has no default for its number type")
            # A function that makes it may have its name.
            if alias not in functions and not re.search(rf"using {alias} = {name}(<double>|<>);", text):
                wrong.append(f"{where}: {name} has no alias {alias}")
    for line in wrong:
        print("FAILED", line)
    print(f"{count} models, {listed} descriptions, {len(wrong)} failed")
    return 1 if wrong or count == 0 or listed == 0 else 0


if __name__ == "__main__":
    sys.exit(main())
