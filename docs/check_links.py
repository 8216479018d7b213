#!/usr/bin/env python3
"""No link is dead, and no picture without words: python3 docs/check_links.py

Looks at every document of the project and, where it was built (docs/build.sh), at every page of the reference: each relative
link and picture must lead to a file, each #fragment to a place in it. Links to other hosts are not followed.
"""
import html.parser
import pathlib
import re
import sys
import urllib.parse

root = pathlib.Path(__file__).resolve().parent.parent


def fragment_of(heading):
    """What the usual Markdown viewers make of a heading."""
    text = re.sub(r"\[([^\]]*)\]\([^)]*\)", r"\1", heading).replace("`", "")
    return re.sub(r"[^\w\- ]", "", text.lower()).replace(" ", "-")


class Page(html.parser.HTMLParser):
    def __init__(self):
        super().__init__()
        self.links, self.places, self.wordless = [], set(), []

    def handle_starttag(self, tag, attributes):
        given = dict(attributes)
        if tag == "img" and not (given.get("alt") or "").strip():
            self.wordless.append(given.get("src"))
        for name, value in attributes:
            if value and (name == "id" or (tag == "a" and name == "name")):
                self.places.add(value)
            if value and ((tag in ("a", "link") and name == "href") or (tag in ("img", "script") and name == "src")):
                self.links.append(value)


def read_document(path):
    links, places, fenced = [], set(), False
    for line in path.read_text(encoding="utf-8").splitlines():
        if line.lstrip().startswith("```"):
            fenced = not fenced
        elif not fenced:
            if line.startswith("#"):
                places.add(fragment_of(line.lstrip("#").strip()))
            links += re.findall(r"\]\(([^()\s]+)(?: \"[^\"]*\")?\)", re.sub(r"`[^`]*`", "", line))
    return links, places


def read_page(path):
    page = Page()
    page.feed(path.read_text(encoding="utf-8"))
    # Arrows that doxygen's own menus draw are repeated by words beside them.
    for picture in page.wordless:
        if picture and picture.endswith(".png") and (root / "docs" / picture).exists():
            wordless.append(f"{path.relative_to(root)}: {picture} has no words for who cannot see it")
    return page.links, page.places


wordless = []
known = {}


def read(path):
    if path not in known:
        known[path] = read_document(path) if path.suffix == ".md" else read_page(path) if path.suffix == ".html" else ([], None)
    return known[path]


documents = [p for p in root.rglob("*.md") if not any(part.startswith("build") or part == ".git" for part in p.relative_to(root).parts)]
pages = sorted((root / "build/docs/html").glob("*.html"))
dead = count = 0
for path in sorted(documents) + pages:
    for link in read(path)[0]:
        target = urllib.parse.urlsplit(link)
        if target.scheme or target.netloc:
            continue
        count += 1
        to = (path.parent / urllib.parse.unquote(target.path)).resolve() if target.path else path
        place = urllib.parse.unquote(target.fragment)
        if not to.exists():
            why = "is not there"
        elif place and to.is_file() and read(to)[1] is not None and place not in read(to)[1]:
            why = "has no place of that name"
        else:
            continue
        print(f"{path.relative_to(root)}: {link} {why}")
        dead += 1
for path in documents:
    for words, picture in re.findall(r"!\[([^\]]*)\]\(([^()\s]+)\)", path.read_text(encoding="utf-8")):
        if len(words) < 20:
            wordless.append(f"{path.relative_to(root)}: {picture} has no words for who cannot see it")
for one in wordless:
    print(one)
    dead += 1
print(f"{len(documents)} documents, {len(pages)} pages: {count - dead} passed, {dead} failed")
sys.exit(1 if dead or not documents else 0)
