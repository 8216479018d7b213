#!/usr/bin/env python3
"""Puts the page's parts into one HTML file: join.py FOLDER LIBRARY.js LIBRARY.wasm OUT.html

Each <!-- put: FILE --> of the page is replaced by that file. Style goes into <style> and a program into <script>; a job
stays text. The library is compressed (gzip, base64): without that it would be twice as large as a page may be.
"""
import base64, gzip, os, re, sys

LARGEST = 2_000_000


def put(folder, built, name):
    path = built.get(name) or os.path.join(folder, name)
    if name.endswith(".wasm"):
        with open(path, "rb") as f:
            return base64.b64encode(gzip.compress(f.read(), 9, mtime=0)).decode("ascii")
    with open(path, encoding="utf-8") as f:
        text = f.read()
    # Such an element ends at the first closing tag in it.
    if re.search(r"</(script|style)", text, re.I):
        sys.exit(name + " holds a closing tag, which would end it")
    if name.endswith(".toml"):
        return text
    return ("<style>\n%s</style>" if name.endswith(".css") else "<script>\n%s</script>") % text


def main():
    folder, program, library, out = sys.argv[1:]
    built = {"library.js": program, "library.wasm": library}
    with open(os.path.join(folder, "page.html"), encoding="utf-8") as f:
        page = f.read()
    page = re.sub(r"<!-- put: (\S+) -->", lambda m: put(folder, built, m.group(1)), page)
    size = len(page.encode("utf-8"))
    if size > LARGEST:
        sys.exit("the page has %d bytes; it may have %d" % (size, LARGEST))
    with open(out, "w", encoding="utf-8") as f:
        f.write(page)


main()
