"""Two files say the same, JSON or CSV: the same keys, words and places, numbers to a part in 10^8 of the larger.

    same_numbers.py ONE OTHER [ZERO]

A mathematical function may differ in its last digit between systems, and a search that ends at a small step carries that on.
What is 0 by right is some small number on each: numbers are the same, too, where they differ by less than ZERO (10^-14).
"""
import csv
import json
import sys

different = []
ZERO = float(sys.argv[3]) if len(sys.argv) > 3 else 1e-14


def number(text):
    try:
        return float(text)
    except ValueError:
        return text


def content(file):
    with open(file, encoding="utf-8", newline="") as f:
        text = f.read()
    if not text:
        sys.exit(f"{file} is empty")
    if text.startswith("{"):
        return json.loads(text)
    return [[number(cell) for cell in row] for row in csv.reader(text.splitlines())]


def look(place, a, b):
    if isinstance(a, bool) or isinstance(b, bool) or not (isinstance(a, (int, float)) and isinstance(b, (int, float))):
        if type(a) is not type(b):
            different.append(f"{place}: {a!r} against {b!r}")
        elif isinstance(a, dict):
            if list(a) != list(b):
                different.append(f"{place}: other keys")
            for key in a:
                if key in b:
                    look(f"{place}.{key}", a[key], b[key])
        elif isinstance(a, list):
            if len(a) != len(b):
                different.append(f"{place}: {len(a)} against {len(b)}")
            for i, (x, y) in enumerate(zip(a, b)):
                look(f"{place}[{i}]", x, y)
        elif a != b:
            different.append(f"{place}: {a!r} against {b!r}")
    elif not abs(a - b) <= max(1e-8 * max(abs(a), abs(b)), ZERO) and not (a != a and b != b):
        different.append(f"{place}: {a} against {b}")


look("", content(sys.argv[1]), content(sys.argv[2]))
print("\n".join(different[:20]))
sys.exit(1 if different else 0)
