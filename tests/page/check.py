#!/usr/bin/env python3
"""The page in a browser: check.py PAGE.html PAGE_ANSWERS [--pictures FOLDER]

Numbers against those of the same sources compiled for this machine (PAGE_ANSWERS); one solve for a frame and nothing that grows,
counted; wrong input; the keyboard alone; names for a screen reader; contrast (WCAG 2.1, 1.4.3); narrow screens; links.
"""
import json, os, re, subprocess, sys

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from browser import Browser, Tab

ROOT = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
LARGEST, MOST_BRIDGE_LINES = 2_000_000, 200
failed = 0


def check(true, what):
    global failed
    if not true:
        failed += 1
        print("FAILED: " + what, flush=True)
    return true


# Questions ------------------------------------------------------------------------------------------------------------

TABLE = {"gauges": "9 thou, 10 thou, 0.3 mm, 1/64 in, 23 thou", "notes": "G3 B3 D4 E4 F#4", "material": "music wire", "wrap": "",
         "core_share": "0.24", "core_offset": "6 thou", "scale": "648 mm", "a4": "440 Hz", "unit": "N"}
WOUND = {**TABLE, "gauges": "24 thou, 42 thou, 56 thou", "notes": "E2 A2 D3", "wrap": "phosphor bronze", "scale": "25 1/2 in", "unit": "lbf"}
NYLON = {**TABLE, "gauges": "0.7 mm, 1 mm", "material": "nylon", "notes": "B3 E4", "a4": "415 Hz", "unit": "kgf"}
INSTRUMENTS = ["flat_top", "octave_mandolin", "solid_body_bass", "nylon_strung", "ten_string_cittern", "slotted_nylon",
               "zero_fret_guitar", "five_string_banjo", "fanned_bass"]


def demo_job():
    with open(os.path.join(ROOT, "examples", "jobs", "ten_string_cittern.toml"), encoding="utf-8") as f:
        return f.read()


def questions():
    yield "choices", {}, ""
    for t in (TABLE, WOUND, NYLON):
        yield "table", t, ""
        for row, column in ((0, 0), (1, 1)):
            yield "cell", {**t, "row": row, "column": column}, ""
    for name in INSTRUMENTS:
        yield "sliders", {"instrument": name}, ""
        turned = {"now.set": "0.95", "now.one": "1.1", "now.crown": "1.02 mm", "now.saddle": "0.4 mm", "now.humidity": "62"}
        for units, now in (("metric", {}), ("both", turned)):
            yield "states", {"instrument": name, "units": units, **now}, ""
        for path in ("relief.gap", "strings[1].heights[11]", "strings[0].at_saddle.on_support.z"):
            yield "why", {"instrument": name, "units": "imperial", **turned, "path": path}, ""
    yield "states", {"instrument": "flat_top", "kept.radius": "14 in", "now.radius": "380 mm", "now.rod": "900 N", "now.string": "2"}, ""
    yield "start", {"instrument": "flat_top"}, ""
    yield "sheet", {"units": "both"}, demo_job()


WRONG_FIELDS = [("gauges", "9"), ("gauges", ""), ("gauges", "9 thou, 40 kg"), ("notes", "H4 E4"), ("notes", ""), ("scale", "-3 mm"),
                ("scale", "many"), ("a4", "0 Hz"), ("core_share", "2"), ("core_offset", "9 mm"), ("gauges", "-9 thou"),
                ("gauges", "nan mm")]
WRONG_SLIDERS = [("crown", "-1 mm"), ("crown", "1"), ("radius", "5 mm"), ("saddle", "12 mm"), ("rod", "-5 N"),
                 ("set", "thick"), ("humidity", "150")]


def as_text(what, values, rest):
    return "\n".join([what, *("%s=%s" % pair for pair in values.items()), "", rest])


def native(program, asked):
    text = "".join(as_text(*q) + "\n.\n" for q in asked)
    done = subprocess.run([program], input=text, capture_output=True, text=True, check=True)
    return [json.loads(line) for line in done.stdout.splitlines()]


def in_page(tab, question):
    what, values, rest = question
    return tab.run("(() => { try { return library.ask(%s, %s, %s); } catch (e) { if (e.problems) return { wrong: e.problems }; throw e; } })()"
                   % (json.dumps(what), json.dumps(values), json.dumps(rest)))


NUMBER = re.compile(r"(\d+(?:\.\d+)?)")
counted = {"numbers": 0, "texts": 0, "rounded": 0}


def alike_text(a, b):
    """Texts that are equal but for the last digit of a number, where two roundings may part."""
    if a == b:
        return True
    one, other = NUMBER.split(a), NUMBER.split(b)
    if len(one) != len(other):
        return False
    for i, (x, y) in enumerate(zip(one, other)):
        if x != y:
            digits = len(x.split(".")[1]) if "." in x else 0
            if i % 2 == 0 or abs(float(x) - float(y)) > 1.001 * 10 ** -digits:
                return False
    counted["rounded"] += 1
    return True


def compare(page, here, at):
    if isinstance(here, dict) and isinstance(page, dict):
        if check(page.keys() == here.keys(), "%s: other members: %s" % (at, sorted(page.keys() ^ here.keys()))):
            for key in here:
                compare(page[key], here[key], at + "." + key)
    elif isinstance(here, list) and isinstance(page, list):
        if check(len(page) == len(here), "%s: %d entries in the page, %d here" % (at, len(page), len(here))):
            for i, (x, y) in enumerate(zip(page, here)):
                compare(x, y, "%s[%d]" % (at, i))
    elif isinstance(here, (int, float)) and isinstance(page, (int, float)):
        counted["numbers"] += 1
        # Twelve digits; what is nothing but rounding about 0 is less than that of anything told.
        check(abs(page - here) <= 1e-12 * abs(here) + 1e-16, "%s: %.17g in the page, %.17g here" % (at, page, here))
    elif isinstance(here, str) and isinstance(page, str):
        counted["texts"] += 1
        check(alike_text(page, here), "%s: differs: %s | %s" % (at, page[:200], here[:200]))
    else:
        check(page == here, "%s: %r in the page, %r here" % (at, page, here))


def numbers(tab, program):
    asked = list(questions())
    for q, here in zip(asked, native(program, asked)):
        at = q[0] + " " + q[1].get("instrument", q[1].get("material", ""))
        check("wrong" not in here, "%s is refused: %s" % (at, here.get("wrong")))
        compare(in_page(tab, q), here, at)
    print("%d questions: %d numbers and %d texts as in the program for this machine; %d texts part in a last digit"
          % (len(asked), counted["numbers"], counted["texts"], counted["rounded"]))
    check(counted["numbers"] > 1500, "hardly any number was compared")


# Frames ---------------------------------------------------------------------------------------------------------------

DRAG = """(async () => {
  const range = $("slide-crown"), next = () => new Promise((done) => requestAnimationFrame(done));
  for (let i = %d; i < %d; ++i) {
    for (const shift of [2, 1, 0]) { // several events come in a frame
      range.value = 0.5 + 0.01 * ((i + shift) %% 40);
      range.dispatchEvent(new Event("input"));
    }
    await next();
  }
  await next();
  return { ...library.counts(), frames: moves.frames, elements: document.getElementsByTagName("*").length };
})()"""


def frames(tab):
    show(tab, "moves")
    start = tab.run(DRAG % (0, 80)) # all states of one round, twice
    end = tab.run(DRAG % (80, 1080))
    count = end["frames"] - start["frames"]
    check(count >= 1000, "%d frames in 1000" % count)
    check(end["solves"] - start["solves"] == count, "%d solves in %d frames" % (end["solves"] - start["solves"], count))
    check(end["explanations"] == start["explanations"], "numbers are explained in frames")
    # The smallest allocation takes 16 bytes: what leaks one in every tenth frame is found.
    for what, room in (("bytes", 1024), ("memory", 0), ("elements", 0)):
        check(end[what] <= start[what] + room, "%s: %d before 1000 frames, %d after" % (what, start[what], end[what]))
    print("%d frames: %d solves, %d bytes in use before and %d after, %d MB of memory"
          % (count, end["solves"] - start["solves"], start["bytes"], end["bytes"], end["memory"] >> 20))
    # A number that is chosen is told without a solve of its own in double numbers.
    before = tab.run("library.counts()")
    tab.run("$('whole').querySelector('td.cell').click()")
    after = tab.run("library.counts()")
    check(after["solves"] == before["solves"] and after["explanations"] == before["explanations"] + 1, "choosing a number")
    check("made as" in tab.run("$('why').textContent"), "the chosen number tells no formula")
    check(tab.run("$('why').querySelectorAll('dd').length") > 6, "the chosen number tells not what moves it")
    check(tab.run("[...document.querySelectorAll('.effect')].some((e) => e.textContent.includes('gives'))"), "no slider tells its effect")


# Parts of the page ----------------------------------------------------------------------------------------------------

def show(tab, part):
    tab.run("location.hash = '#%s'" % part)
    tab.wait("!$('part-%s').hidden" % part)
    tab.settle()


def set_field(tab, form, name, text):
    tab.run("(() => { const f = $('%s').elements.namedItem(%s); f.value = %s; f.dispatchEvent(new Event('input', { bubbles: true })); })()"
            % (form, json.dumps(name), json.dumps(text)))


def wrong_input(tab, program):
    show(tab, "table")
    base = tab.run("tension.values()")
    asked = []
    for name, text in WRONG_FIELDS:
        wrap = "phosphor bronze" if name.startswith("core") else ""
        asked.append(("table", {**base, "wrap": wrap, name: text}, ""))
    for (name, text), (_, values, _), here in zip(WRONG_FIELDS, asked, native(program, asked)):
        if not check("wrong" in here, "%s = %r is not refused" % (name, text)):
            continue
        rows = tab.run("$('tensions').textContent")
        for key, value in values.items():
            set_field(tab, "table-form", key, value)
        said = tab.run("[...$('table-wrong').querySelectorAll('p')].map((p) => p.textContent)")
        check(said == [w["sentence"] for w in here["wrong"]] and not tab.run("$('table-wrong').hidden"), "%s = %r: the page says %r" % (name, text, said))
        check(tab.run("$('table-form').elements.namedItem(%s).getAttribute('aria-invalid')" % json.dumps(name)) == "true",
              "%s = %r: the field is not marked" % (name, text))
        check(rows and tab.run("$('tensions').rows.length") > 1, "the table is gone")
        for key, value in base.items():
            set_field(tab, "table-form", key, value)
        check(tab.run("$('table-wrong').hidden && !document.querySelector('[aria-invalid]')"), "%s: mended, and still marked" % name)
    show(tab, "moves")
    tab.run("moves.form.elements.instrument.value = 'flat_top', moves.form.elements.instrument.dispatchEvent(new Event('input'))")
    tab.settle()
    asked = [("states", {"instrument": "flat_top", "units": "metric", "now." + name: text}, "") for name, text in WRONG_SLIDERS]
    for (name, text), here in zip(WRONG_SLIDERS, native(program, asked)):
        if not check("wrong" in here, "%s = %r is not refused" % (name, text)):
            continue
        good = tab.run("moves.form.elements.namedItem('%s').value" % name)
        set_field(tab, "moves-form", name, text)
        tab.settle()
        said = tab.run("[...$('moves-wrong').querySelectorAll('p')].map((p) => p.textContent)")
        check(said == [w["sentence"] for w in here["wrong"]], "%s = %r: the page says %r" % (name, text, said))
        check(tab.run("moves.form.elements.namedItem('%s').getAttribute('aria-invalid')" % name) == "true", "%s = %r is not marked" % (name, text))
        set_field(tab, "moves-form", name, good)
        tab.settle()
        check(tab.run("$('moves-wrong').hidden"), "%s: mended, and still told" % name)
    show(tab, "sheet")
    for text, line in (("title = \"x\"\n", False), ("[[[", False), (demo_job().replace("\"0.95 ±", "\"-0.95 ±"), True)):
        tab.run("$('job-text').value = %s; $('make-sheet').click()" % json.dumps(text))
        tab.wait("!$('sheet-wrong').hidden")
        here = native(program, [("sheet", {"units": "metric"}, text)])[0]["mistakes"]
        said = tab.run("[...$('sheet-wrong').querySelectorAll('li')].map((p) => p.textContent)")
        check(here and said == [("line %d: " % m["line"] if m["line"] else "") + m["sentence"] for m in here], "a wrong job: %r" % said[:3])
        check(tab.run("$('sheet').hidden"), "a wrong job has a page")
        if line and check(any(m["line"] for m in here), "a mistake has no line"):
            tab.run("$('sheet-wrong').querySelector('button').click()")
            check(tab.run("document.activeElement.id") == "job-text" and tab.run("getSelection().toString()").strip() != "", "a mistake's line is not gone to")
    print("wrong input: %d fields, %d sliders, 3 jobs say the library's own sentences" % (len(WRONG_FIELDS), len(WRONG_SLIDERS)))


def job_page(tab, program):
    show(tab, "sheet")
    here = native(program, [("sheet", {"units": "metric"}, demo_job())])[0]
    tab.run("""(() => { const dropped = new DataTransfer();
      dropped.items.add(new File([%s], "job.toml", { type: "text/plain" }));
      $("drop").dispatchEvent(new DragEvent("drop", { dataTransfer: dropped, bubbles: true, cancelable: true })); })()""" % json.dumps(demo_job()))
    tab.wait("!$('sheet').hidden && $('sheet').contentDocument?.querySelector('h1')")
    compare(tab.run("$('sheet').srcdoc"), here["html"], "the dropped job's page")
    tab.wait("$('sheet').offsetHeight > 2000")
    check(tab.run("$('sheet').contentDocument.querySelectorAll('svg').length") > 3, "the job's page has no drawings")
    check(tab.run("$('save-sheet').href").startswith("blob:"), "the page cannot be saved")
    check(tab.run("fetch('data:,x').then(() => 'let', () => 'refused')") == "refused", "the page may ask for something from elsewhere")
    tab.run("$('begin').value = 'fanned_bass'; $('begin').dispatchEvent(new Event('change'))")
    tab.wait("$('sheet').contentDocument?.querySelector('h1')?.textContent.includes('fanned bass')")


def links(browser, tab, url):
    show(tab, "table")
    set_field(tab, "table-form", "gauges", "11 thou, 17 thou & more")
    set_field(tab, "table-form", "gauges", "11 thou, 17 thou")
    set_field(tab, "table-form", "scale", "25 1/2 in")
    tab.wait("location.hash.includes('17')")
    tab.run("navigator.clipboard.writeText = async (t) => { window.copied_text = t; }")
    tab.run("$('copy-csv').click()")
    tab.wait("window.copied_text")
    csv = tab.run("window.copied_text")
    check(csv.split("\r\n")[0].startswith("construction,gauge_thou") and csv.count("\r\n") == 11, "the CSV: %r" % csv[:200])
    tab.run("window.copied_text = ''; document.querySelector('#part-table .copy-link').click()")
    tab.wait("window.copied_text")
    again = Tab(browser, tab.run("window.copied_text"))
    check(again.run("$('tensions').textContent") == tab.run("$('tensions').textContent"), "a link does not bring the table back")
    again.close()
    show(tab, "moves")
    set_field(tab, "moves-form", "crown", "1.21 mm")
    tab.run("$('keep').click()")
    set_field(tab, "moves-form", "humidity", "31")
    tab.settle()
    tab.wait("location.hash.includes('now.humidity=31')")
    again = Tab(browser, tab.run("location.href"))
    again.settle()
    for at in ("$('whole').textContent", "$('strings').textContent", "$('slide-crown').value", "$('panels').innerHTML"):
        check(again.run(at) == tab.run(at), "a link does not bring back " + at)
    check("kept" in again.run("$('strings').textContent"), "the two states are not told apart")
    again.close()


FOCUS = """(() => { const e = document.activeElement, s = getComputedStyle(e);
  return { id: e.id, name: e.name ?? "", tag: e.tagName, text: e.textContent.slice(0, 40), cell: e.matches("td.cell"),
           seen: s.outlineStyle !== "none" && parseFloat(s.outlineWidth) >= 2 }; })()"""
REACHED = """[...document.querySelectorAll("a[href], button, input, select, textarea, [tabindex='0']")]
  .filter((e) => e.offsetParent !== null && !e.closest("[hidden]") && e.tabIndex >= 0).length"""


def keyboard(browser, url):
    tab = Tab(browser, url)
    for part in ("table", "moves", "sheet"):
        if part != "table":
            # From the first link on: to the part's link, Enter.
            tab.run("document.activeElement.blur(), getSelection().removeAllRanges()")
            for _ in range(60):
                tab.key("Tab")
                if tab.run("document.activeElement.getAttribute('href')") == "#" + part:
                    break
            tab.key("Enter")
            tab.wait("!$('part-%s').hidden" % part)
            tab.settle()
            check(tab.run("document.activeElement.id") == "head-" + part, "the part that is gone to is not told")
        wanted, seen = tab.run(REACHED), []
        tab.run("document.activeElement.blur(), $('head-%s').focus()" % part)
        for _ in range(wanted + 5):
            tab.key("Tab")
            at = tab.run(FOCUS)
            if at["tag"] == "BODY" or (seen and at == seen[0]):
                break
            check(at["seen"], "focus is not seen on %r" % at)
            seen.append(at)
        nav = 3
        check(len(seen) >= wanted - nav, "%s: Tab reaches %d of %d" % (part, len(seen), wanted - nav))
        if part == "table":
            tab_to(tab, lambda at: at["name"] == "gauges", part)
            tab.key("End")
            rows = tab.run("$('tensions').tBodies[0].rows.length")
            tab.type(", 20 thou")
            check(tab.run("$('tensions').tBodies[0].rows.length") == rows + 1, "typing adds no row")
            tab_to(tab, lambda at: at["cell"], part)
            told = [tab.run("$('cell').textContent")]
            for name in ("ArrowRight", "ArrowDown", "End", "Home"):
                tab.key(name)
                told.append(tab.run("$('cell').textContent"))
            check(len(set(told)) == 5, "arrow keys do not tell each cell's formula")
        if part == "moves":
            before = tab.run("$('whole').textContent")
            tab_to(tab, lambda at: at["id"] == "slide-saddle", part)
            for _ in range(4):
                tab.key("ArrowRight")
            tab.settle()
            check(tab.run("$('whole').textContent") != before, "the keys move no slider")
            tab_to(tab, lambda at: at["cell"], part)
            tab.key("Enter")
            first = tab.run("$('why').textContent")
            tab.key("ArrowDown")
            tab.key(" ")
            check("made as" in first and tab.run("$('why').textContent") != first, "Enter and space choose no number")
        if part == "sheet":
            tab_to(tab, lambda at: at["id"] == "begin", part)
            tab.key("ArrowDown")
            tab.wait("!$('sheet').hidden && $('sheet').contentDocument?.querySelector('h1')")
    tab.close()
    print("the keyboard alone reaches every control and does each part's work")


def tab_to(tab, wanted, part):
    tab.run("document.activeElement.blur(), $('head-%s').focus()" % part)
    for _ in range(60):
        tab.key("Tab")
        if wanted(tab.run(FOCUS)):
            return
    check(False, "Tab does not reach what is wanted in " + part)


NAMED = {"textbox", "slider", "combobox", "button", "link", "grid", "table", "group", "region", "Iframe", "image", "searchbox", "checkbox"}


def names(tab, part):
    unnamed = []
    for node in tab.call("Accessibility.getFullAXTree")["nodes"]:
        role = node.get("role", {}).get("value")
        if node.get("ignored") or role not in NAMED or role == "group" and not node.get("name"):
            continue
        if not node.get("name", {}).get("value", "").strip():
            unnamed.append(role)
    check(not unnamed, "%s: without a name for a screen reader: %s" % (part, unnamed))


CONTRAST = """(() => {
  const parse = (c) => { const n = c.match(/[\\d.]+/g).map(Number); return { r: n[0], g: n[1], b: n[2], a: n[3] ?? 1 }; };
  const light = (c) => [c.r, c.g, c.b].map((v) => v / 255).map((v) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4))
    .reduce((sum, v, i) => sum + v * [0.2126, 0.7152, 0.0722][i], 0);
  const ground = (e) => { for (; e; e = e.parentElement) { const c = parse(getComputedStyle(e).backgroundColor); if (c.a === 1) return c;
    if (c.a !== 0) return null; } return parse(getComputedStyle(document.documentElement).backgroundColor); };
  const ratio = (a, b) => { const [x, y] = [light(a), light(b)].sort((p, q) => q - p); return (x + 0.05) / (y + 0.05); };
  const all = [], walk = document.createTreeWalker(document.body, NodeFilter.SHOW_ELEMENT);
  for (let e = walk.nextNode(); e; e = walk.nextNode()) {
    const own = [...e.childNodes].some((n) => n.nodeType === 3 && n.data.trim()) || "value" in e && e.tagName !== "BUTTON" && e.tagName !== "LI";
    if (!own || e.getClientRects().length === 0 || ["SCRIPT", "STYLE", "OPTION"].includes(e.tagName)) continue;
    const s = getComputedStyle(e), drawn = e instanceof SVGElement, under = ground(drawn ? e.ownerSVGElement : e);
    all.push({ ratio: under ? ratio(parse(drawn ? s.fill : s.color), under) : 0, opacity: s.opacity,
               what: e.tagName + "." + (e.id || e.className.baseVal || e.className) + " " + (e.textContent || e.value || "").trim().slice(0, 30) });
  }
  return all;
})()"""


def looks(browser, url, pictures):
    least, count = 99, 0
    for width in (1280, 390):
        for dark in (False, True):
            tab = Tab(browser, url, width, 900, dark)
            for part in ("table", "moves", "sheet"):
                show(tab, part)
                if part == "table":
                    set_field(tab, "table-form", "notes", "G3 D4 E4 B4 E5") # some near breaking, some over it
                if part == "moves":
                    set_field(tab, "moves-form", "crown", "1.15 mm")
                    set_field(tab, "moves-form", "saddle", "0.6 mm")
                    tab.settle()
                    tab.run("$('whole').querySelector('td.cell').click()")
                if part == "sheet":
                    tab.run("$('begin').value = 'demo'; $('begin').dispatchEvent(new Event('change'))")
                    tab.wait("!$('sheet').hidden && $('sheet').contentDocument?.querySelector('h1')")
                    tab.wait("$('sheet').offsetHeight > 2000")
                check(tab.run("document.documentElement.scrollWidth") <= width, "%s is wider than %d" % (part, width))
                if pictures:
                    tab.picture(os.path.join(pictures, "%s_%d_%s.png" % (part, width, "dark" if dark else "light")), part != "sheet")
                # With what is wrong on the page as well.
                if part != "sheet":
                    form, field = ("table-form", "scale") if part == "table" else ("moves-form", "crown")
                    set_field(tab, form, field, "3")
                    tab.settle()
                    check(tab.run("!$('%s-wrong').hidden" % part), "what is wrong is not seen")
                    if pictures and width == 390:
                        tab.picture(os.path.join(pictures, "%s_wrong_%s.png" % (part, "dark" if dark else "light")), False)
                else:
                    tab.run("$('job-text').value = 'title = 3'; $('make-sheet').click()")
                    tab.wait("!$('sheet-wrong').hidden")
                for text in tab.run(CONTRAST):
                    count += 1
                    least = min(least, text["ratio"])
                    check(text["ratio"] >= 4.5 and text["opacity"] == "1", "contrast %.2f of %s, %s" % (text["ratio"], text["what"], "dark" if dark else "light"))
                names(tab, part)
            tab.close()
    check(count > 1000, "hardly any text was looked at")
    print("contrast of %d texts, light and dark: %.2f at least" % (count, least))


def main():
    page, program = sys.argv[1:3]
    pictures = sys.argv[sys.argv.index("--pictures") + 1] if "--pictures" in sys.argv else None
    url = "file://" + os.path.abspath(page)
    check(os.path.getsize(page) <= LARGEST, "the page has %d bytes" % os.path.getsize(page))
    lines = sum(len(open(os.path.join(ROOT, "examples", "page", name)).readlines()) for name in ("bridge.cpp", "bridge.js"))
    check(lines < MOST_BRIDGE_LINES, "the bridge has %d lines" % lines)
    print("the page has %d bytes, the bridge %d lines" % (os.path.getsize(page), lines))
    browser = Browser()
    try:
        tab = Tab(browser, url)
        check(tab.run("document.querySelectorAll('[aria-live], [role=status], [role=alert]').length") >= 5, "live regions are missing")
        numbers(tab, program)
        frames(tab)
        wrong_input(tab, program)
        job_page(tab, program)
        links(browser, tab, url)
        tab.close()
        keyboard(browser, url)
        looks(browser, url, pictures)
        asked = {e["params"]["request"]["url"].split(":")[0] for e in browser.events if e.get("method") == "Network.requestWillBeSent"}
        check(asked <= {"file", "about", "blob"}, "the page asks for %s" % asked)
        thrown = [e["params"]["exceptionDetails"] for e in browser.events if e.get("method") == "Runtime.exceptionThrown"]
        check(not thrown, "the page threw: %s" % thrown[:1])
    finally:
        browser.close()
    print("page: %d failed" % failed)
    sys.exit(1 if failed else 0)


main()
