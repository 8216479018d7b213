// The page as a reader's browser gets it: whole, safe, and saying what the sheet says.
#include <algorithm>
#include <regex>
#include <set>

#include <blocks.hpp>
#include <detail.hpp>
#include <page.hpp>
#include <pictures.hpp>
#include <sheet.hpp>
#include <tautline/job/job_words.hpp>

#include <doctest/doctest.h>

#include "../bench_sheet/run_program.hpp"
#include "hostile_text.hpp"
#include "ready_jobs.hpp"
#include "sanitized.hpp"

using namespace program;

namespace {

std::size_t count_of(const std::string& text, const std::string& part) {
    std::size_t count = 0;
    for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size())) { ++count; }
    return count;
}
/// What a reader sees of it: no tags, entities as characters.
std::string seen(std::string html) {
    html = std::regex_replace(html, std::regex("<style>[^<]*</style>"), " ");
    std::string text;
    bool in_tag = false;
    for (const char c : html) {
        if (c == '<') { in_tag = true; }
        text += in_tag ? ' ' : c;
        if (c == '>') { in_tag = false; }
    }
    for (const auto& [entity, sign] : {std::pair{"&lt;", "<"}, std::pair{"&gt;", ">"}, std::pair{"&quot;", "\""},
                                       std::pair{"&#39;", "'"}, std::pair{"&amp;", "&"}}) {
        text = std::regex_replace(text, std::regex(entity), sign);
    }
    return text;
}
/// The part of a page under a heading's place.
std::string part(const std::string& html, const std::string& id) {
    const auto from = html.find("<section id=\"" + id + "\"");
    if (from == std::string::npos) { return ""; }
    return html.substr(from, html.find("</section>", from) - from);
}
/// Every number, signs with it.
std::multiset<std::string> numbers_in(const std::string& text) {
    std::multiset<std::string> all;
    const std::regex number("[-+]?[0-9]+([.][0-9]+)?");
    for (std::sregex_iterator at(text.begin(), text.end(), number), end; at != end; ++at) { all.insert(at->str()); }
    return all;
}
void check_well_formed(const std::string& html) {
    std::ofstream(scratch() + "/page.html", std::ios::binary) << html;
    // As XML, which takes nothing half closed, and as HTML; libxml2 knows none of HTML's newer tags. From memory: read in
    // pieces, libxml2 2.9 takes a tag whose "/>" is torn for a mistake.
    const auto xml = run_command("xmllint --noout --nonet " + scratch() + "/page.html");
    CHECK_MESSAGE(xml.code == 0, xml.err.substr(0, 600));
    const auto parsed = run_command("xmllint --html --memory --noout --nonet " + scratch() + "/page.html");
    std::istringstream lines(parsed.err);
    for (std::string line; std::getline(lines, line);) {
        const bool told = line.find("parser error") != std::string::npos && line.find("Tag ") == std::string::npos;
        CHECK_MESSAGE(!told, line);
    }
}

} // namespace

TEST_CASE("the break of a string that lifts off is told negative") {
    namespace tl = tautline;
    const auto at = [](double x_mm, double z_mm) {
        return tl::point{.x = x_mm * tl::units::mm, .y = 0 * tl::units::mm, .z = z_mm * tl::units::mm};
    };
    const auto told = [&](double end_mm) {
        return bench_sheet::sections::break_degrees(
            tl::support_load<double>(at(0, 0), at(600, 0), at(620, end_mm), 100 * tl::units::N, 100 * tl::units::N));
    };
    CHECK(told(-1) == "2.9"); // atan(1/20)
    CHECK(told(1) == "-2.9");
    CHECK(told(0) == "0.0");
}
TEST_CASE("the page of every kind is whole, small, well-formed and asks for nothing") {
    for (const std::string& kind : paged::kinds()) {
        // Other pages are made of each kind under sanitizers, too: here one is enough.
        if (sanitized && kind != paged::kinds().front()) { continue; }
        for (const bool planned : {false, true}) {
            CAPTURE(kind);
            CAPTURE(planned);
            const auto& job = paged::answer_text(planned ? paged::planned_text_of(kind) : paged::text_of(kind));
            const auto w = job.whole();
            const std::string html = bench_sheet::bench_page(w, tautline::measures::metric);
            check_well_formed(html);
            CHECK(html.size() < bench_sheet::largest_page);
            CHECK(count_of(html, "<title>") == 1);
            CHECK(count_of(html, "<h1>") == 1);
            CHECK(has(html, "<html lang=\"en\""));
            // Nothing runs and nothing is fetched.
            for (const char* none : {"<script", "<img", "<link", "<iframe", "<object", "src=", "url(", "@import", "onload",
                                     "onclick", "javascript:", "http-equiv=\"refresh\""}) {
                CHECK_MESSAGE(!has(html, none), none);
            }
            CHECK(has(html, "content=\"default-src 'none'; style-src 'unsafe-inline'\""));
            CHECK(count_of(html, "http") == 2); // a name of XML and an attribute's
            CHECK(count_of(html, "xmlns=\"http://www.w3.org/1999/xhtml\"") == 1);
            CHECK(count_of(html, "http-equiv") == 1);
            // Each picture is there with its words for who does not see it, and the legend of the map.
            const auto pictures = bench_sheet::pictures_of(w, tautline::measures::metric);
            CHECK(pictures.size() >= (planned ? 7 : 6));
            CHECK(count_of(html, "<svg role=\"img\" aria-label=\"") == pictures.size() + 1);
            CHECK(count_of(html, "aria-label=\"\"") == 0);
            for (const auto& p : pictures) {
                CHECK(p.told.size() > 40);
                CHECK(has(seen(html), p.heading));
            }
            CHECK(count_of(html, "<details") >= (planned ? 5 : 2));
            const std::string text = seen(html);
            CHECK(has(text, std::string(tautline::job_cautions)));
            CHECK(has(text, "a qualified repairer decides"));
            CHECK((!has(text, "nan") && !has(text, "inf ")));
            // One box to tick for each step.
            CHECK(count_of(html, "<input type=\"checkbox\"/>") == job.a.steps.size() * (planned ? 1 : 0));
            CHECK(count_of(html, "id=\"steps\"") == (planned ? 1 : 0));
            CHECK(count_of(html, "id=\"cut\"") == (planned ? 1 : 0));
            // Each link leads somewhere.
            const std::regex link("href=\"#([a-z]+)\"");
            for (std::sregex_iterator at(html.begin(), html.end(), link), end; at != end; ++at) {
                CHECK(count_of(html, "id=\"" + (*at)[1].str() + "\"") == 1);
            }
        }
    }
}

TEST_CASE("no kind's sheet promises nothing, goes less than nowhere or speaks of parts that are not there") {
    // A give or take of 0, a way with its sign besides its word, an open string taken for a fret.
    const std::regex empty("\u00b1 0([.]0+)?( |\n)"),
        backward("(wider|narrower|higher|lower|deeper|back|out|rises|sinks) by -"), no_fret("no fret|[(]open[)]"),
        nothing("^0([.]0+)? .*");
    for (const std::string& kind : paged::kinds()) {
        for (const bool planned : {false, true}) {
            for (const auto units : {tautline::measures::metric, tautline::measures::imperial}) {
                CAPTURE(kind);
                CAPTURE(planned);
                const auto& job = paged::answer_text(planned ? paged::planned_text_of(kind) : paged::text_of(kind));
                const auto w = job.whole();
                const std::string said =
                    bench_sheet::sheet(w, {.units = units, .detail = true, .steps = true, .budget = true});
                CHECK_FALSE(std::regex_search(said, empty));
                CHECK_FALSE(std::regex_search(said, backward));
                CHECK_FALSE(std::regex_search(said, no_fret));
                for (const auto& row : bench_sheet::budget_block(w, {.units = units, .budget = true}).rows) {
                    CHECK_MESSAGE(!std::regex_match(row[1], nothing), row[1]);
                }
                const auto& built = w.last().on.instrument;
                const std::string before_cautions = said.substr(0, said.rfind("Cautions\n"));
                if (built.body_bridge) {
                    for (const char* none : {"soundboard", "press the top", "the top under"}) {
                        CHECK_MESSAGE(!has(before_cautions, none), none);
                    }
                }
                if (!built.pins && !built.tie_block) {
                    CHECK_FALSE(std::regex_search(before_cautions, std::regex("\\bholes?\\b")));
                }
                std::multiset<std::string> findings;
                for (const auto& s : bench_sheet::findings_block(w, {.units = units}).sentences) {
                    // What is said of one string behind its name is said once for all that it holds for.
                    const auto name = s.words.find("): ");
                    findings.insert(name == std::string::npos ? s.words : s.words.substr(name));
                }
                for (const auto& words : findings) { CHECK_MESSAGE(findings.count(words) == 1, words); }
            }
        }
    }
}

TEST_CASE("page and sheet say the same") {
    const std::string a_year =
        "\n[season.measured_in]\ncelsius = 21\nhumidity = 45\n[season.dry]\ncelsius = 21\nhumidity = 30\n"
        "[season.damp]\ncelsius = 21\nhumidity = 65\n";
    for (const char* file : {"/ten_string_cittern.toml", "/baritone_flat_top.toml"}) {
        for (const auto units : {tautline::measures::metric, tautline::measures::both}) {
            const auto& job = paged::answer_text(read_all(std::string(JOBS) + file) + a_year, true);
            const auto w = job.whole();
            const std::string html = bench_sheet::bench_page(w, units), sheet = bench_sheet::sheet(w, {.units = units});
            // The sheet's parts by their heads, each against the page's part that tells the same.
            const auto between = [&](const std::string& from, const std::string& to) {
                const auto begin = sheet.find(from);
                REQUIRE_MESSAGE(begin != std::string::npos, from);
                const auto end = to.empty() ? sheet.find("\n\n", begin) : sheet.find(to, begin);
                return sheet.substr(begin, end - begin);
            };
            CHECK(numbers_in(between("\n  relief ", "\n\n")) == numbers_in([&] {
                      std::string rows = seen(part(html, "numbers"));
                      return rows.substr(rows.find("relief"));
                  }()));
            const std::string strings = between("Strings, A4", "\n\n");
            const auto details = seen(part(html, "details"));
            const auto page_strings = details.substr(details.find("Strings, A4"),
                                                     details.find("What changes most") - details.find("Strings, A4"));
            CHECK(numbers_in(strings) == numbers_in(page_strings));
            // What is to be cut is out of that table: no number of it is another.
            const auto all = numbers_in(strings);
            for (const std::string& n : numbers_in(seen(part(html, "cut")))) { CHECK_MESSAGE(all.count(n) > 0, n); }
            CHECK(numbers_in(between("\nSteps\n", "\n\n")) == numbers_in(seen(part(html, "steps"))));
            for (const auto& [id, head] :
                 {std::pair{"readings", "What the readings say"}, std::pair{"findings", "Findings, as planned"}}) {
                if (sheet.find(head) != std::string::npos && !part(html, id).empty()) {
                    CHECK(numbers_in(between(head, "\n\n")) == numbers_in(seen(part(html, id))));
                }
            }
            if (sheet.find("First: what cannot be") != std::string::npos) {
                CHECK(numbers_in(between("First: what cannot be", "\n\n")) == numbers_in(seen(part(html, "cannot"))));
            }
            REQUIRE(job.a.year);
            CHECK(numbers_in(between("Through the year", "\n\n")) == numbers_in(seen(part(html, "season"))));
            CHECK(has(part(html, "season"), "least clearance of any string"));
        }
    }
}

TEST_CASE("every number stands in tables with captions, or in sentences, as --detail has them") {
    for (const char* file : {"/ten_string_cittern.toml", "/baritone_flat_top.toml"}) {
        for (const auto units : {tautline::measures::metric, tautline::measures::both}) {
            const auto& job = paged::answer_text(read_all(std::string(JOBS) + file));
            const auto w = job.whole();
            const std::string details = part(bench_sheet::bench_page(w, units), "details");
            CHECK(!has(details, "<pre"));
            std::size_t from = 0, tables = 0;
            for (const tautline::job_state& state : w.states) {
                const std::string begins = state.name == "found" ? "Every number, as found" : "Every number, as planned";
                from = details.find("<summary>" + begins, from);
                REQUIRE(from != std::string::npos);
                const std::string folded = details.substr(from, details.find("</details>", from) - from);
                const std::string text = seen(folded.substr(folded.find("</summary>")));
                CHECK(numbers_in(text) == numbers_in(bench_sheet::detail(state, units)));
                std::size_t here = 0;
                for (const bench_sheet::block& b : bench_sheet::detail_blocks(state, units)) {
                    if (b.rows.empty()) { continue; }
                    ++here;
                    CHECK(b.rows.size() > 1);
                    for (const auto& row : b.rows) { CHECK(row.size() == b.rows.front().size()); }
                }
                CHECK(count_of(folded, "<table") == here);
                CHECK(count_of(folded, "<caption>") == here);
                CHECK(count_of(folded, "<caption></caption>") == 0);
                tables += here;
            }
            CHECK(tables >= 5 * w.states.size());
            // Each head says whether it is of a column or of a row.
            const std::size_t heads = count_of(details, "<th ") + count_of(details, "<th>");
            CHECK(count_of(details, "<th scope=\"col\">") + count_of(details, "<th scope=\"row\">") == heads);
        }
    }
}

TEST_CASE("titles and names are untrusted") {
    const std::string evil =
        "</title><script>alert(1)</script><svg onload=x>&amp; \\\"q\\\" 'a' ]]> <!-- " + hostile::name_in_toml();
    std::string text = read_all(std::string(JOBS) + "/ten_string_cittern.toml");
    const auto title = text.find("title = \"");
    REQUIRE(title != std::string::npos);
    text.replace(title, text.find('\n', title) - title, "title = \"" + evil + "\"");
    const auto object = text.find("name = \"", text.find("[[objects]]"));
    REQUIRE(object != std::string::npos);
    text.replace(object, text.find('\n', object) - object, "name = \"" + evil + "\"");
    const auto& job = paged::answer_text(text);
    const std::string html = bench_sheet::bench_page(job.whole(), tautline::measures::metric);
    check_well_formed(html);
    CHECK(!has(html, "<script"));
    CHECK(!has(html, "<svg onload"));
    CHECK(!has(html, "<!--"));
    CHECK(count_of(html, "<title>") == 1);
    CHECK(count_of(html, "</title>") == 1);
    CHECK(!hostile::is_in(html));
    CHECK(has(html, "&lt;/title&gt;&lt;script&gt;alert(1)&lt;/script&gt;&lt;svg onload=x&gt;&amp;amp; &quot;q&quot; "
                    "&#39;a&#39; ]]&gt;"));
    CHECK(has(seen(html), hostile::name_shown()));
    // A title of any length leaves the page within its limit.
    std::string longest = read_all(std::string(JOBS) + "/ten_string_cittern.toml");
    longest.replace(title, longest.find('\n', title) - title, "title = \"" + std::string(90000, '<') + "\"");
    CHECK(bench_sheet::bench_page(paged::answer_text(longest).whole(), tautline::measures::metric).size() <
          bench_sheet::largest_page);
}

TEST_CASE("the program writes the page whole or not at all, never over the job") {
    const std::string job = scratch() + "/kind.toml", page = scratch() + "/out.html";
    REQUIRE(run("--new pinned --out " + job).code == 0);
    const auto r = run(job + " --page " + page);
    CHECK(r.code == 0);
    CHECK(r.out.empty());
    CHECK(r.err.empty());
    const std::string html = read_all(page);
    CHECK(html.starts_with("<!DOCTYPE html>\n"));
    CHECK(html.ends_with("</html>\n"));
    check_well_formed(html);
    CHECK(has(html, "<title>"));
    const std::string text = read_all(job);
    const auto over = run(job + " --page " + job);
    CHECK(over.code == 2);
    CHECK(has(over.err, "--page is \"" + job + "\", which is the job file itself; expected another file"));
    CHECK(read_all(job) == text);
    // What stands there stays when it cannot be written; a folder that is not there is not made.
    CHECK(run(job + " --page " + scratch() + "/none/out.html").code == 1);
    const auto full = run_command("ulimit -f 8; " + std::string(BENCH_SHEET) + " " + job + " --page " + page);
    CHECK(full.code != 0);
    CHECK(read_all(page) == html);
    const auto with_out = run(job + " --page " + page + " --out x");
    CHECK(with_out.code == 2);
    const auto imperial = run(job + " --page " + page + " --units imperial");
    CHECK(imperial.code == 0);
    CHECK(has(read_all(page), "thou"));
}

TEST_CASE("a program that was built without cairo writes page and SVG, and says what is left out") {
    const std::string job = scratch() + "/kind.toml", folder = scratch() + "/drawn_plain", page = scratch() + "/plain.html";
    REQUIRE(run("--new solid >" + job).code == 0);
    const auto drawn = run_command(std::string(BENCH_SHEET_WITHOUT_CAIRO) + " " + job + " --drawings " + folder);
    CHECK(drawn.code == 0);
    CHECK(has(drawn.out, "PDF and PNG are left out: this program was built without cairo."));
    CHECK(std::filesystem::exists(folder + "/side_view.svg"));
    CHECK(!std::filesystem::exists(folder + "/side_view.pdf"));
    CHECK(!std::filesystem::exists(folder + "/side_view.png"));
    CHECK(run_command(std::string(BENCH_SHEET_WITHOUT_CAIRO) + " " + job + " --page " + page).code == 0);
    REQUIRE(run(job + " --page " + scratch() + "/with.html").code == 0);
    const bool same = read_all(page) == read_all(scratch() + "/with.html");
    CHECK(same);
}

TEST_CASE("a browser shows the page no wider than a phone, where there is one") {
    if (run_command("command -v chromium").code != 0) {
        MESSAGE("left out: no chromium here");
        return;
    }
    const std::string page = scratch() + "/phone.html";
    const auto& job = paged::answer_text(read_all(std::string(JOBS) + "/ten_string_cittern.toml"));
    // Its own width is asked by a program in it, which the page itself allows none of.
    const std::string policy =
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\"/>";
    for (const auto units : {tautline::measures::metric, tautline::measures::both}) {
        std::string html = bench_sheet::bench_page(job.whole(), units);
        const auto at = html.find(policy);
        REQUIRE(at != std::string::npos);
        html.erase(at, policy.size());
        html.insert(html.find("</body>"),
                    "<script>document.title = 'wide ' + document.documentElement.scrollWidth + ' of ' + "
                    "document.documentElement.clientWidth;</script>");
        std::ofstream(page, std::ios::binary) << html;
        const auto dom = run_command("timeout 60 chromium --headless --no-sandbox --disable-gpu --disable-quic "
                                     "--no-first-run --disable-background-networking --disable-component-update "
                                     "--disable-sync --user-data-dir=" +
                                     scratch() + "/profile --window-size=390,800 --dump-dom file://" + page);
        std::smatch wide;
        if (dom.code != 0 || !std::regex_search(dom.out, wide, std::regex("<title>wide ([0-9]+) of ([0-9]+)</title>"))) {
            MESSAGE("left out: chromium does not run here");
            return;
        }
        CHECK(std::stoi(wide[1]) <= std::stoi(wide[2]));
        CHECK(std::stoi(wide[2]) < 520);
    }
}
