"""Two JSON files say the same: the same keys, words and places, numbers to a part in 10^8 of the larger, or of a millionth.

A mathematical function may differ in its last digit between systems, and a search that ends at a small step carries that on.
"""
import json
import sys

different = []


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
    elif abs(a - b) > 1e-8 * max(abs(a), abs(b), 1e-6):
        different.append(f"{place}: {a} against {b}")


with open(sys.argv[1], encoding="utf-8") as one, open(sys.argv[2], encoding="utf-8") as other:
    look("", json.load(one), json.load(other))
print("\n".join(different[:20]))
sys.exit(1 if different else 0)
