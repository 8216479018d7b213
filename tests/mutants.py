#!/usr/bin/env python3
"""Draws mutants of the headers and expects a test to notice each; run through tests/mutants.sh, see docs/mutants.md.

A mutant is one small change (tests/mutants_draw.py). Which tests run the changed place is known from a map made once, of a
build that counts. They are compiled one after the other, the nearest first, until one of them fails. All state is kept in
build/mutants/: a run can be stopped at any time and goes on where it was.
"""
import argparse
import concurrent.futures
import fcntl
import hashlib
import json
import os
import pathlib
import re
import resource
import shlex
import shutil
import signal
import subprocess
import sys
import threading
import time

sys.dont_write_bytecode = True  # the sources stay as they are
import mutants_draw  # noqa: E402

ROOT = pathlib.Path(__file__).resolve().parent.parent
STATE = ROOT / "build/mutants"
TREE = STATE / "tree"  # what a run works on, so that the sources may be edited meanwhile
CMAKE = STATE / "cmake"
MAP = STATE / "map"
FOLDERS = ["core", "strings", "board", "neck", "supports", "action", "instrument", "setup", "work", "doubt", "job"]
MOST_EQUIVALENT, LEAST_NOTICED = 15, 0.95
MEMORY, COMPILER_SECONDS = 6 << 30, 600
running, stopping = set(), threading.Event()
spent = threading.local()  # processor time of what each worker started


def digest(*parts):
    h = hashlib.sha256()
    for p in parts:
        h.update(p if isinstance(p, bytes) else str(p).encode())
        h.update(b"\0")
    return h.hexdigest()[:16]


def run(command, seconds, cwd=None, env=None):
    """Exit code, all it printed, and its processor time; no more of that than `seconds`."""

    def limits():
        resource.setrlimit(resource.RLIMIT_CPU, (int(seconds) + 1, int(seconds) + 2))
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))

    log_path = pathlib.Path(cwd or STATE) / f"log-{threading.get_ident()}"
    with open(log_path, "wb") as log:
        process = subprocess.Popen(
            command, stdin=subprocess.DEVNULL, stdout=log, stderr=subprocess.STDOUT, cwd=cwd, env=env, preexec_fn=limits,
            start_new_session=True,
        )
        running.add(process)
        if stopping.is_set():
            process.kill()
        timer = threading.Timer(20 * seconds + 60, process.kill)  # for what only waits
        timer.start()
        _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        timer.cancel()
        running.discard(process)
    if stopping.is_set():
        raise KeyboardInterrupt
    said = log_path.read_bytes().decode(errors="replace")
    spent.seconds = getattr(spent, "seconds", 0.0) + used.ru_utime + used.ru_stime
    return process.returncode, said, used.ru_utime + used.ru_stime


def copied_tree():
    """The sources as they are now, beside the state; files that did not change keep their time."""
    wanted = set()
    for folder in ("include", "tests", "examples", "docs", ".cmake", "CMakeLists.txt"):
        top = ROOT / folder
        for path in [top] if top.is_file() else sorted(p for p in top.rglob("*") if p.is_file()):
            if "__pycache__" in path.parts:
                continue
            relative = path.relative_to(ROOT)
            wanted.add(relative)
            to, content = TREE / relative, path.read_bytes()
            if not to.exists() or to.read_bytes() != content:
                to.parent.mkdir(parents=True, exist_ok=True)
                to.write_bytes(content)
    for path in list(TREE.rglob("*")):
        if path.is_file() and path.relative_to(TREE) not in wanted:
            path.unlink()


class Source:
    """One file that is compiled, with the flags that CMake gives it."""

    def __init__(self, entry):
        self.path = pathlib.Path(entry["file"])
        words = shlex.split(entry["command"])
        self.object = os.path.normpath(pathlib.Path(entry["directory"]) / words[words.index("-o") + 1])
        kept, skip = [], False
        for w in words[1:]:
            if skip or w in ("-o", "-c"):
                skip = w == "-o"
            elif w != entry["file"] and not re.match(r"-(W|O|g|Werror)", w):
                kept.append(w)
        self.flags = kept
        self.name = str(self.path.relative_to(TREE))
        # The file that holds doctest itself must not have read it before, and programs are linked without it.
        self.prelude = "tests" if self.name.startswith("tests/") else "programs"
        if "DOCTEST_CONFIG_IMPLEMENT" in self.path.read_text(errors="replace"):
            self.prelude = None

    def command(self, place, extra):
        """To compile it against the headers in `place`, with the programs that are built there."""
        flags = [f.replace(str(CMAKE), str(place)) for f in self.flags]
        flags = [f"-I{place}/include" if f == f"-I{TREE}/include" else f for f in flags]
        prelude = ["-include-pch", str(STATE / f"prelude-{self.prelude}.pch")] if self.prelude else []
        return [*extra, *prelude, *flags, "-c", str(self.path)]


class Program:
    """What is linked: sources, system libraries and the programs that a test of it starts."""

    def __init__(self, name, sources, libraries):
        self.name, self.sources, self.libraries, self.starts = name, sources, libraries, []


class Unit:
    """A test file that is compiled and run for itself, with what its program needs besides."""

    def __init__(self, source, support, libraries, starts):
        self.source, self.support, self.libraries, self.starts = source, support, libraries, starts
        self.name = re.sub(r"^tests/|\.cpp$", "", source.name)
        self.text = source.path.read_text()

    def all_sources(self):
        return [self.source, *self.support] + [s for p in self.starts for s in p.sources]


class Compiler:
    def __init__(self):
        self.path = os.environ.get("CXX", "clang++")
        linker = ["-fuse-ld=lld"] if shutil.which("ld.lld") else []
        # The library's own checks of places in a list make a mutant that reaches beyond its end fail at once.
        self.base = [self.path, "-O0", "-w", "-ferror-limit=1", "-D_GLIBCXX_ASSERTIONS"]
        self.counting = ["-fprofile-instr-generate", "-fcoverage-mapping"]
        self.link = [self.path, *linker]


compiler = Compiler()


def configured():
    """Programs of tests and examples as CMake would build them."""
    code, said, _ = run(
        ["cmake", "-S", str(TREE), "-B", str(CMAKE), f"-DCMAKE_CXX_COMPILER={compiler.path}", "-G", "Unix Makefiles",
         "-DTAUTLINE_TESTS=ON", "-DTAUTLINE_EXAMPLES=ON", "-DTAUTLINE_BENCH=OFF", "-DCMAKE_EXPORT_COMPILE_COMMANDS=ON"],
        600,
    )
    if code != 0:
        sys.exit(said)
    sources = {s.object: s for s in map(Source, json.loads((CMAKE / "compile_commands.json").read_text()))}
    links = {}  # what is linked by its path: the command's words with full paths
    for file in sorted(CMAKE.rglob("link.txt")):
        folder = file.parents[2]
        words = shlex.split(file.read_text().splitlines()[0])
        if words[1] == "qc":
            target, parts = words[2], words[3:]
        else:
            at = words.index("-o")
            target, parts = words[at + 1], words[1:at] + words[at + 2 :]
        full = lambda w: os.path.normpath(folder / w) if re.search(r"\.(o|a)$", w) and not w.startswith("-") else w
        links[os.path.normpath(folder / target)] = [full(w) for w in parts]

    def taken_apart(words):
        own, libraries = [], []
        for w in words:
            if w in sources:
                own.append(sources[w])
            elif w in links:
                more, theirs = taken_apart(links[w])
                own += more
                libraries += theirs
            elif w.startswith("-l") or w.endswith((".a", ".so")) or w.startswith("-L"):
                libraries.append(w)
        return own, libraries

    programs = {}
    for target, words in links.items():
        if not target.endswith(".a"):
            programs[target] = Program(os.path.relpath(target, CMAKE), *taken_apart(words))
    units = []
    for target, p in programs.items():
        tests = [s for s in p.sources if s.name.startswith("tests/") and "TEST_CASE" in s.path.read_text()]
        support = [s for s in p.sources if s not in tests]
        for s in tests:
            starts = [q for path, q in programs.items() if any(path in f for f in s.flags)]
            units.append(Unit(s, support, p.libraries, starts))
    return units


def make_preludes(units):
    """Headers from outside that sources include, compiled once: reading them takes longer than reading the library."""
    standard = next(f for f in units[0].source.flags if f.startswith("-std="))
    version = subprocess.run([compiler.path, "--version"], capture_output=True, text=True).stdout
    outside = r"^#include (<(?:boost/units/[\w/.]+|[a-z_]+|rapidcheck\.h)>)"
    names = set()
    for path in [*TREE.glob("include/**/*.hpp"), *TREE.glob("tests/**/*.hpp"), *(u.source.path for u in units)]:
        names.update(re.findall(outside, path.read_text(), re.M))
    keys = []
    for prelude in ("tests", "programs"):
        own = ["<doctest/doctest.h>", *sorted(names)] if prelude == "tests" else sorted(n for n in names if "rapid" not in n)
        text = "".join(f"#include {n}\n" for n in own)
        header, stamp = STATE / f"prelude-{prelude}.hpp", STATE / f"prelude-{prelude}.stamp"
        keys.append(digest(text, version, *compiler.base, standard))
        if not stamp.exists() or stamp.read_text() != keys[-1]:
            header.write_text(text)
            command = [*compiler.base, standard, "-x", "c++-header", str(header), "-o", str(header.with_suffix(".pch"))]
            code, said, _ = run(command, COMPILER_SECONDS)
            if code != 0:
                sys.exit(said)
            stamp.write_text(keys[-1])
    return digest(*keys)


class Mapped:
    """What is known of a test file without any mutant: whether it passes, how long it takes, what it reads and runs."""

    def __init__(self, record):
        self.passes, self.seconds, self.test_seconds = record["passes"], record["seconds"], record["test_seconds"]
        self.reads = record["reads"]  # of each source, the project's files it reads
        self.headers = set().union(*(r for r in self.reads.values()))
        self.segments = record["segments"]
        self.said = record["said"]

    def runs(self, header, place):
        """How often a place was run, as True or False; None where it is no code of a function."""
        segments = self.segments.get(header)
        if not segments:
            return None
        low, high = 0, len(segments)
        while low < high:
            middle = (low + high) // 2
            low, high = (middle + 1, high) if tuple(segments[middle][:2]) <= place else (low, middle)
        return segments[low - 1][2] if low else None


def environment():
    """Random tests take the same road with and without a mutant, and need not tell the smallest example."""
    env = dict(os.environ)
    env.setdefault("RC_PARAMS", "seed=1 noshrink=1")
    return env


def read_by(depfile):
    text = pathlib.Path(depfile).read_text().replace("\\\n", " ")
    inside = []
    for word in text.split(":", 1)[1].split():
        path = pathlib.Path(os.path.realpath(word))
        if path.is_relative_to(TREE):
            inside.append(str(path.relative_to(TREE)))
    return sorted(inside)


counted_lock = threading.Lock()
counted = {}  # objects that several test files share: a lock each


def counted_object(source, key):
    """A source compiled so that it counts, with what it reads; kept for all test files that share it."""
    with counted_lock:
        lock = counted.setdefault(source.object, threading.Lock())
    with lock:
        to = MAP / "objects" / (digest(source.object) + ".o")
        note = to.with_suffix(".json")
        if to.exists() and note.exists():
            said = json.loads(note.read_text())
            if said["key"] == key and said["content"] == content_of(said["reads"]):
                return to, said["reads"], ""
        to.parent.mkdir(parents=True, exist_ok=True)
        command = source.command(TREE_PLACE, [*compiler.base, *compiler.counting, "-MMD", "-MF", str(to) + ".d"])
        code, said, _ = run([*command, "-o", str(to)], COMPILER_SECONDS)
        if code != 0:
            return None, [], said
        reads = read_by(str(to) + ".d")
        note.write_text(json.dumps({"key": key, "reads": reads, "content": content_of(reads)}))
        return to, reads, ""


TREE_PLACE = STATE / "counted"  # `include` there is the unchanged one; programs that count are linked there
contents = {}


def content_of(names):
    for n in names:
        if n not in contents:
            path = TREE / n
            contents[n] = digest(path.read_bytes()) if path.exists() else "gone"
    return digest(*(contents[n] for n in names))


def map_unit(unit, key):
    """Compiles and runs a test file in a build that counts, unless nothing that it reads has changed since."""
    file = MAP / (unit.name.replace("/", "-") + ".json")
    key, shared_key = digest(key, *unit.source.flags, *(s.name for s in unit.all_sources())), key
    if file.exists():
        record = json.loads(file.read_text())
        names = sorted(set().union(*record["reads"].values()))
        if record["key"] == key and record["content"] == content_of(names):
            return Mapped(record)
    began = time.time()
    folder = MAP / "work" / unit.name.replace("/", "-")
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    test = folder / "test"
    own = folder / "own.o"
    command = unit.source.command(TREE_PLACE, [*compiler.base, *compiler.counting, "-MMD", "-MF", str(own) + ".d"])
    code, said, seconds = run([*command, "-o", str(own)], COMPILER_SECONDS, cwd=folder)
    objects, reads, binaries = [own], {}, [test]
    test_seconds = 0.0
    if code == 0:
        reads[unit.source.name] = read_by(str(own) + ".d")
        for s in unit.support:
            o, its, said = counted_object(s, shared_key)
            if o is None:
                code = 1
                break
            objects.append(o)
            reads[s.name] = its
        for p in unit.starts:
            parts = [counted_object(s, shared_key) for s in p.sources]
            program = TREE_PLACE / p.name
            program.parent.mkdir(parents=True, exist_ok=True)
            binaries.append(program)
            with counted_lock:
                code, said, _ = run(
                    [*compiler.link, *compiler.counting, *(str(o) for o, _, _ in parts), *p.libraries, "-o", str(program)], 600)
            reads.update({s.name: its for s, (_, its, _) in zip(p.sources, parts)})
            if code != 0:
                break
    if code == 0:
        link = [*compiler.link, *compiler.counting, *map(str, objects), *unit.libraries, "-o", str(test)]
        code, said, _ = run(link, 600, cwd=folder)
    segments = {}
    if code == 0:
        env = {**environment(), "LLVM_PROFILE_FILE": str(folder / "%p.profraw")}
        code, said, test_seconds = run([str(test), "--no-intro"], 3600, cwd=folder, env=env)
        segments = counted_places(folder, binaries)
    record = {
        "key": key, "passes": code == 0, "seconds": seconds, "test_seconds": test_seconds, "reads": reads,
        "content": content_of(sorted(set().union(*reads.values()))), "segments": segments,
        "said": "" if code == 0 else said[-2000:],
    }
    if reads:
        file.write_text(json.dumps(record))
    shutil.rmtree(folder, ignore_errors=True)
    told = "" if code == 0 else " FAILS without any mutant and is left out: " + " ".join(said[-300:].split())
    print(f"mapped {unit.name} ({time.time() - began:.0f} s){told}", flush=True)
    return Mapped(record)


def counted_places(folder, binaries):
    """Of each header, where a new count begins: (line, column, run or not, or None outside of functions)."""
    raw = sorted(map(str, folder.glob("*.profraw")))
    data = folder / "data"
    # A program that a test stopped, or let write to a full disk, leaves counts that cannot be read: the others count.
    subprocess.run(
        ["llvm-profdata", "merge", "-sparse", "-failure-mode=all", *raw, "-o", str(data)], check=True, capture_output=True)
    more = [w for b in binaries[1:] for w in ("-object", str(b))]
    said = subprocess.run(
        ["llvm-cov", "export", "-skip-expansions", "-skip-functions", f"-instr-profile={data}", str(binaries[0]), *more,
         f"{TREE_PLACE}/include"],
        check=True, capture_output=True, text=True,
    )
    segments = {}
    for file in json.loads(said.stdout)["data"][0]["files"]:
        name = file["filename"].split("/include/tautline/")
        if len(name) == 2:
            segments[name[1]] = [[s[0], s[1], s[2] > 0 if s[3] else None] for s in file["segments"]]
    return segments


def distance(unit, header):
    """How far a test file stands from a header: its own, one that includes it by name, its folder, its outside checks,
    the folders that build on it, whole programs."""
    folder, name = header[: -len(".hpp")].split("/") if "/" in header else ("", header[: -len(".hpp")])
    own = unit.name.split("/")
    outside = own[0] == "published"
    its_folder, its_name = own[-2], own[-1]
    if its_folder == folder and its_name == name and not outside:
        return 0
    named = f"tautline/{header}>" in unit.text
    if its_folder == folder and named:
        return 1
    if its_folder == folder:
        return 3 if outside else 2
    if named:
        return 4
    if its_folder not in FOLDERS:
        return 40 if not unit.starts else 50
    return 5 + abs(FOLDERS.index(its_folder) - FOLDERS.index(folder)) if folder in FOLDERS else 20


class Place:
    """A folder of its own for each worker: changed headers, objects and what is linked."""

    def __init__(self, number):
        self.path = STATE / f"work{number}"
        shutil.rmtree(self.path, ignore_errors=True)
        self.path.mkdir(parents=True)
        shutil.copytree(TREE / "include", self.path / "include")

    def header(self, name):
        return self.path / "include/tautline" / name

    def compile(self, source, to):
        return run([*source.command(self.path, compiler.base), "-o", str(to)], COMPILER_SECONDS, cwd=self.path)


def unchanged_object(place, source):
    """A source that no mutant at hand changes, compiled once for all."""
    to = STATE / "unchanged" / (digest(source.object, place.path, content_of(all_reads[source.name])) + ".o")
    if not to.exists():
        to.parent.mkdir(parents=True, exist_ok=True)
        code, said, _ = place.compile(source, place.path / "unchanged.o")
        if code != 0:
            raise RuntimeError(said)
        (place.path / "unchanged.o").rename(to)
    return to


all_reads = {}  # of each source, what it reads


def why_not(said):
    """What a compiler's refusal means: a test's own static check failed, or the mutant is no program."""
    error = re.search(r"^(\S+?):\d+:\d+: (?:fatal )?error: (.*)", said, re.M)
    if not error:
        return "broken", said[-200:]
    in_test = "/tree/tests/" in error.group(1)
    checks = re.search(r"static_assert failed|static assertion failed|constant expression", error.group(2))
    return ("compiler" if in_test and checks else "broken"), error.group(2)


def tried(place, unit, header, mapped, done):
    """One test file against the changed header: "passes", "fails", "compiler" or "broken", with what was said."""
    relative = "include/tautline/" + header

    def object_of(source):
        if relative not in mapped.reads.get(source.name, [relative]):
            return unchanged_object(place, source), None
        to = place.path / (digest(source.object) + ".o")
        if source.object not in done:
            code, said, _ = place.compile(source, to)
            done[source.object] = None if code == 0 else said
        return to, done[source.object]

    objects = []
    for s in [unit.source, *unit.support]:
        o, wrong = object_of(s)
        if wrong is not None:
            return why_not(wrong)
        objects.append(str(o))
    for p in unit.starts:
        parts = []
        for s in p.sources:
            o, wrong = object_of(s)
            if wrong is not None:
                return why_not(wrong)
            parts.append(str(o))
        program = place.path / p.name
        if p.name not in done:
            program.parent.mkdir(parents=True, exist_ok=True)
            code, said, _ = run([*compiler.link, *parts, *p.libraries, "-o", str(program)], 600, cwd=place.path)
            done[p.name] = None if code == 0 else said
        if done[p.name] is not None:
            return "broken", done[p.name][-200:]
    test = place.path / "test"
    code, said, _ = run([*compiler.link, *objects, *unit.libraries, "-o", str(test)], 600, cwd=place.path)
    if code != 0:
        return "broken", said[-200:]
    code, said, _ = run(
        [str(test), "--no-intro", "--abort-after=1"], 10 * mapped.test_seconds + 10, cwd=place.path, env=environment())
    if code == 0:
        return "passes", ""
    first = re.search(r"TEST CASE:\s*(.*)", said)
    return "fails", first.group(1).strip() if first else f"ended with {code}"


def judged(place, header, changed, wanted, maps):
    """Tries test files until one notices; "noticed", "survived" or "broken", the file that decided, what it said."""
    file = place.header(header)
    original = file.read_text()
    file.write_text(changed)
    done, count = {}, 0
    try:
        for unit in wanted:
            result, said = tried(place, unit, header, maps[unit.name], done)
            count += 1
            if result != "passes":
                return "broken" if result == "broken" else "noticed", unit.name, said, count
        return "survived", "", "", count
    finally:
        file.write_text(original)


def wanted_units(mutant, units, maps, near):
    """The test files that run the mutant, nearest first, or only the near ones; whether none at all runs it."""
    passing = [u for u in units if maps[u.name].passes and "include/tautline/" + mutant.header in maps[u.name].headers]
    nearest = sorted(passing, key=lambda u: (distance(u, mutant.header), maps[u.name].seconds + maps[u.name].test_seconds))
    said = {u.name: maps[u.name].runs(mutant.header, mutant.at) for u in nearest}
    runs = [u for u in nearest if said[u.name]]

    def asked(some):
        """All, or of a header the test of its name and those that include it by name; without any, four of its folder."""
        if not near:
            return some
        far = {u.name: distance(u, mutant.header) for u in some}
        return [u for u in some if far[u.name] in (0, 1, 4)] or [u for u in some if far[u.name] <= 3][:4]

    if runs:
        return asked(runs), False
    if mutant.in_body:
        # Only what is worked out while compiling may still reach it.
        return nearest[:3], True
    return asked(nearest), not nearest


class Known:
    """Mutants that change nothing that anybody could notice, each with its reason."""

    FILE = ROOT / "tests/mutants_equivalent.txt"

    def __init__(self):
        self.reasons = {}
        if not self.FILE.exists():
            return
        for entry in re.split(r"\n\s*\n", self.FILE.read_text()):
            said = dict(re.findall(r"^(header|before|after|reason): *(.*?) *$", entry, re.M))
            if len(said) == 4:
                self.reasons[said["header"], said["before"], said["after"]] = said["reason"]

    def reason(self, result):
        return self.reasons.get((result["header"], result["before"], result["after"]))


class Book:
    """Results of a run, one line each; a run that is begun again reads them."""

    def __init__(self, folder, tests, known, near):
        folder.mkdir(parents=True, exist_ok=True)
        self.file, self.tests, self.known, self.lock = folder / "results.jsonl", tests, known, threading.Lock()
        self.near = near
        self.results = {}
        if self.file.exists():
            for line in self.file.read_text().splitlines():
                try:
                    result = json.loads(line)
                except ValueError:
                    continue  # the line that a stop cut off
                self.results[result["number"]] = result

    def has(self, number):
        """Survivors are tried again once there are other tests; those of the near ones, once all are asked."""
        r = self.results.get(number)
        if r is None or r["result"] != "survived" or self.known.reason(r):
            return r is not None
        if r["near"]:
            return self.near and r["tests"] == self.tests
        return r["tests"] == self.tests and (r["tried"] > 0 or r["not_run"])

    def add(self, result):
        with self.lock:
            self.results[result["number"]] = result
            with open(self.file, "a") as f:
                f.write(json.dumps(result) + "\n")


def told(result, reason=None):
    how = {"noticed": f"by {result.get('by')}", "broken": result.get("said", "")[:90]}.get(result["result"], "")
    if result["result"] == "survived":
        how = f"equivalent: {reason}" if reason else "no test runs it" if result["not_run"] else f"{result['tried']} test files"
    return f"{result['result']:8} {result['header']}:{result['line']} ({result['kind']}) {how}"


def keep_drawing(arguments, units, maps, texts, seed, book, known):
    """Judges mutants in the order drawn until as many as wanted could be compiled."""
    drawn = [m for m in mutants_draw.draw(texts, seed) if arguments.only in m.header]
    places = [Place(k) for k in range(arguments.jobs)]
    free = list(range(arguments.jobs))
    deadline = time.time() + arguments.minutes * 60 if arguments.minutes else None
    counts = lambda: sum(1 for n, r in book.results.items() if n < len(drawn) and r["result"] != "broken" and book.has(n))

    def work(number, k):
        m = drawn[number]
        before, after = mutants_draw.lines_of(texts[m.header], m)
        result = {"number": number, "header": m.header, "line": m.line, "kind": m.kind, "before": before, "after": after,
                  "tests": book.tests, "by": "", "said": "", "tried": 0, "not_run": False, "near": False,
                  "result": "survived"}
        spent.seconds = 0.0
        reason = known.reason(result)
        if not reason:
            wanted, not_run = wanted_units(m, units, maps, arguments.near)
            changed = mutants_draw.applied(texts[m.header], m)
            result["result"], result["by"], result["said"], result["tried"] = judged(places[k], m.header, changed, wanted, maps)
            result["not_run"], result["near"] = not_run, arguments.near and not not_run
        result["seconds"] = round(spent.seconds, 2)
        book.add(result)
        print(told(result, reason), flush=True)
        return k

    with concurrent.futures.ThreadPoolExecutor(arguments.jobs) as pool:
        pending, number = set(), 0
        try:
            while True:
                while free and counts() + len(pending) < arguments.count and number < len(drawn):
                    if deadline and time.time() > deadline:
                        break
                    if not book.has(number):
                        pending.add(pool.submit(work, number, free.pop()))
                    number += 1
                if not pending:
                    break
                done, pending = concurrent.futures.wait(pending, return_when=concurrent.futures.FIRST_COMPLETED)
                for d in done:
                    free.append(d.result())
        except BaseException:
            stop()
            raise
    return counts() >= arguments.count or number >= len(drawn)


def report(arguments, book, known, seed):
    counted = [r for _, r in sorted(book.results.items()) if r["result"] != "broken"]
    broken = len(book.results) - len(counted)
    survivors = [r for r in counted if r["result"] == "survived"]
    equivalent = [r for r in survivors if known.reason(r)]
    survived = [r for r in survivors if not known.reason(r)]
    noticed = len(counted) - len(survivors)
    lines = []
    for r in survived:
        what = "no test runs it" if r["not_run"] else f"passes {r['tried']} {'near ' if r['near'] else ''}test files"
        lines.append(f"{r['header']}:{r['line']} ({r['kind']}; {what})\n  before: {r['before']}\n  after:  {r['after']}\n")
    (STATE / "survivors.txt").write_text("\n".join(lines))
    seconds = sum(r["seconds"] for r in book.results.values())
    if lines:
        print("\n" + "\n".join(lines))
    if seconds > 0:
        print(f"seed {seed}; {broken} more did not compile; {3600 * len(counted) / seconds:.0f} an hour on one core")
    print(f"{noticed} noticed, {len(survived)} survived, {len(equivalent)} equivalent")
    if near := sum(1 for r in survived if r["near"]):
        print(f"{near} of the survivors were tried with the near test files only: run again without --near.")
    if len(equivalent) > MOST_EQUIVALENT:
        print(f"More than {MOST_EQUIVALENT} are called equivalent.")
    return noticed > 0 and noticed >= LEAST_NOTICED * (noticed + len(survived)) and len(equivalent) <= MOST_EQUIVALENT


def listed(arguments, units, key):
    """The chosen mutants of tests/mutants.txt, each against the test files that it names."""
    by_name = {u.name: u for u in units}
    place, maps, caught, wrong = Place(0), {}, 0, 0
    for line in (ROOT / "tests/mutants.txt").read_text().splitlines():
        if not line.strip() or line.startswith("#") or arguments.listed not in line:
            continue
        header, suite, files, before, after = line.split("|", 4)
        names = [os.path.normpath(f"{suite}/{f}") for f in files.split()]
        for n in names:
            if n in by_name and n not in maps:
                maps[n] = map_unit(by_name[n], key)
                all_reads.update(maps[n].reads)
        text = (TREE / "include/tautline" / header).read_text()
        if before not in text:
            result, said = "STALE", ""
        elif not all(n in maps and maps[n].passes for n in names):
            result, said = "BROKEN", "a test file is missing or fails without it"
        else:
            result, by, said, _ = judged(place, header, text.replace(before, after, 1), [by_name[n] for n in names], maps)
            said = by if result == "noticed" else said
        caught, wrong = (caught + 1, wrong) if result == "noticed" else (caught, wrong + 1)
        print(f"{result} {header}: {before} -> {after} ({said})", flush=True)
    print(f"{caught} passed, {wrong} failed")
    return caught > 0 and wrong == 0


def stale():
    """Chosen mutants whose original text does not stand in the header any more."""
    gone = 0
    for line in (ROOT / "tests/mutants.txt").read_text().splitlines():
        if line.strip() and not line.startswith("#"):
            header, _, _, before, _ = line.split("|", 4)
            file = ROOT / "include/tautline" / header
            if not file.exists() or before not in file.read_text():
                print(f"stale: {header}: {before}")
                gone += 1
    return gone


def stop(*_):
    stopping.set()
    for p in list(running):
        try:
            os.killpg(p.pid, signal.SIGKILL)
        except OSError:
            pass


def main():
    parser = argparse.ArgumentParser(prog="tests/mutants.sh", description="Draws mutants and expects tests to notice them.")
    parser.add_argument("count", nargs="?", type=int, default=200, help="how many mutants that compile (200)")
    parser.add_argument("--seed", help="what decides the draw; the commit's hash unless given")
    parser.add_argument("--jobs", type=int, default=min(2, os.cpu_count() or 1), help="how many at once")
    parser.add_argument("--only", default="", metavar="WORD", help="only headers whose path holds this, such as board/")
    parser.add_argument("--minutes", type=float, help="begin no further mutant after so long; run again to go on")
    parser.add_argument("--near", action="store_true", help="ask only tests that name the header; run again without it for the rest")
    parser.add_argument("--report", action="store_true", help="only tell what is known so far")
    parser.add_argument("--map", action="store_true", help="only make the map of which tests run what")
    parser.add_argument("--listed", nargs="?", const="", metavar="WORD", help="the chosen ones of tests/mutants.txt instead")
    parser.add_argument("--stale", action="store_true", help="only tell which of the chosen ones no longer fit their headers")
    arguments = parser.parse_args()
    if arguments.stale:
        sys.exit(1 if stale() else 0)
    signal.signal(signal.SIGTERM, lambda *_: (stop(), sys.exit(1)))
    signal.signal(signal.SIGINT, lambda *_: (stop(), sys.exit(1)))

    STATE.mkdir(parents=True, exist_ok=True)
    lock = open(STATE / "lock", "w")
    try:
        fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        sys.exit("Another run works in build/mutants: let it end first.")
    copied_tree()
    texts = mutants_draw.headers(TREE / "include")
    seed = arguments.seed or subprocess.run(
        ["git", "-C", str(ROOT), "rev-parse", "HEAD"], capture_output=True, text=True, check=True).stdout.strip()
    units = configured()
    tests = digest(*(digest(p.read_bytes()) for p in sorted((TREE / "tests").rglob("*.[ch]pp"))))
    name = digest(seed, arguments.only, *(texts[t] for t in sorted(texts)))
    known = Known()
    book = Book(STATE / "runs" / name, tests, known, arguments.near)
    if arguments.report:
        sys.exit(0 if report(arguments, book, known, seed) else 1)

    key = make_preludes(units)
    TREE_PLACE.mkdir(exist_ok=True)
    if not (TREE_PLACE / "include").exists():
        (TREE_PLACE / "include").symlink_to(TREE / "include")
    MAP.mkdir(exist_ok=True)
    if arguments.listed is not None:
        sys.exit(0 if listed(arguments, units, key) else 1)
    maps = {}
    with concurrent.futures.ThreadPoolExecutor(arguments.jobs) as pool:
        for unit, mapped in zip(units, pool.map(lambda u: map_unit(u, key), units)):
            maps[unit.name] = mapped
            all_reads.update(mapped.reads)
    failing = [n for n, m in maps.items() if not m.passes]
    print(f"{len(units)} test files, {len(failing)} of them fail without any mutant: {' '.join(failing)}")
    if arguments.map:
        sys.exit(0 if not failing else 1)
    ended = keep_drawing(arguments, units, maps, texts, seed, book, known)
    fine = report(arguments, book, known, seed)
    if not ended:
        print("Stopped before the end: run it again to go on.")
    sys.exit(0 if fine and ended else 1)


if __name__ == "__main__":
    main()
