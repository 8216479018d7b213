// The project's own SVG against cairo: letters as wide, everything at the same place. Cairo takes its letters from the face
// that the system has for "sans-serif"; the widths of the table are of DejaVu Sans, Debian's choice. Where the system has
// another, what depends on letters is left out, and said.
#include <algorithm>
#include <map>

#include <buzz_map.hpp>
#include <labels.hpp>
#include <letter_widths.hpp>
#include <side_view.hpp>
#include <svg.hpp>
#include <templates.hpp>

#include <doctest/doctest.h>

#include "near.hpp"
#include "read_back.hpp"
#include "solved.hpp"

using drawing::box;
using drawing::place;

namespace {

/// Whether cairo's letters are those of the table.
bool same_face() {
    if (!drawing::makes_pdf_and_png()) { return false; }
    const std::string face = drawn::output_of("fc-match -f '%{family}' sans-serif");
    if (face.rfind("DejaVu Sans", 0) != 0) { MESSAGE("left out: sans-serif is \"" << face << "\" here"); }
    return face.rfind("DejaVu Sans", 0) == 0;
}
/// How wide cairo says that letters of 10 mm are.
double width_in_cairo(const std::string& letters, bool bold) {
    double wide = -1;
    const std::vector<drawing::page> pages{
        {{0, 0, 100, 100}, [&](drawing::canvas& c) { wide = c.text_width(letters, {.size = 10, .bold = bold}); }}};
    (void)drawing::pdf_of(pages, "");
    return wide;
}
constexpr double point = 25.4 / 72; // mm

/// From the least to the greatest place of all strokes.
box extent_of(const std::vector<drawn::stroke>& strokes) {
    double left = INFINITY, top = INFINITY, right = -INFINITY, bottom = -INFINITY;
    for (const auto& s : strokes) {
        for (const place& p : s.points) {
            left = std::min(left, p.x), right = std::max(right, p.x);
            top = std::min(top, p.y), bottom = std::max(bottom, p.y);
        }
    }
    return {left, top, right - left, bottom - top};
}
std::vector<drawing::sheets> all_drawings() {
    const drawing::heading head{"A title, nothing more", drawing::paper::a4, drawing::measures::both};
    const auto found = drawn::four_course(), planned = drawn::four_course_planned();
    return {drawing::side_view(head, found, &planned), drawing::buzz_map(head, found, &planned),
            drawing::templates(head, found, &planned), drawing::templates(head, drawn::fanned(), nullptr)};
}

} // namespace

TEST_CASE("letters are as wide in the table as cairo finds them in the face") {
    if (!same_face()) { return; }
    for (const bool bold : {false, true}) {
        for (const auto& [first, last] :
             {std::pair{0x20, 0x7e}, std::pair{0xa0, 0xac}, std::pair{0xae, 0x17f}, std::pair{0x2012, 0x2014},
              std::pair{0x2018, 0x201a}, std::pair{0x2026, 0x2026}, std::pair{0x20ac, 0x20ac}, std::pair{0x2190, 0x2193},
              std::pair{0x2212, 0x2212}, std::pair{0x2264, 0x2265}, std::pair{0x266d, 0x266f}}) {
            for (int code = first; code <= last; ++code) {
                CAPTURE(code);
                // Between two others, as cairo may trim what stands alone.
                const auto c = static_cast<std::uint32_t>(code);
                std::string one;
                if (c < 0x80) {
                    one = {static_cast<char>(c)};
                } else if (c < 0x800) {
                    one = {static_cast<char>(0xc0U | c >> 6U), static_cast<char>(0x80U | (c & 0x3fU))};
                } else {
                    one = {static_cast<char>(0xe0U | c >> 12U), static_cast<char>(0x80U | (c >> 6U & 0x3fU)),
                           static_cast<char>(0x80U | (c & 0x3fU))};
                }
                const double in_cairo = width_in_cairo("n" + one + "n", bold) - width_in_cairo("nn", bold);
                CHECK(near::within(10 * drawing::letter_width(c, bold), in_cairo,
                                   0.006)); // cairo's widths have steps of 1/256 pt
            }
        }
    }
    // What the table lacks counts as one em, what is set over a letter as nothing.
    CHECK(drawing::letter_width(0x4e00, false) == 1);
    CHECK(drawing::letter_width(0x301, false) == 0);
    CHECK(drawing::line_width("", false) == 0);
    CHECK(near::within(10 * drawing::line_width("Height over fret 12, 2.30 \xC2\xB1 0.05 mm", true),
                       width_in_cairo("Height over fret 12, 2.30 \xC2\xB1 0.05 mm", true), 0.02));
}

TEST_CASE("both back ends draw every line at the same place, to a hundredth of a millimetre") {
    if (!drawing::makes_pdf_and_png()) { return; }
    const files::scratch_folder folder;
    for (const auto& sheets : all_drawings()) {
        const auto pdf = folder.write("s.pdf", drawing::pdf_of(sheets.pages, ""));
        for (std::size_t n = 0; n < sheets.pages.size(); ++n) {
            CAPTURE(sheets.name);
            CAPTURE(n);
            const auto own = drawn::strokes_of(drawing::svg_of(sheets.pages[n]));
            auto cairo = drawn::strokes_of_pdf(pdf, static_cast<int>(n) + 1);
            // Poppler lays the page in the middle of a sheet of whole points.
            const auto spare = [](double mm) { return (std::ceil(mm / point) * point - mm) / 2; };
            const place moved{spare(sheets.pages[n].sheet.width), spare(sheets.pages[n].sheet.height)};
            for (auto& theirs : cairo) {
                for (place& p : theirs.points) { p = {p.x + moved.x, p.y + moved.y}; }
            }
            REQUIRE(own.size() > 20);
            REQUIRE(cairo.size() > 20);
            // Poppler leaves out what a window hides; whatever it has, our file has too.
            for (const auto& theirs : cairo) {
                if (!theirs.is_line() || theirs.points[0].x > 287.05) { continue; } // beyond every window
                // Cairo makes one line of several that run straight on.
                const auto alike = [&](const drawn::stroke& ours) {
                    if (std::abs(ours.width - theirs.width) > 0.01) { return false; }
                    const auto close = [](place a, place b) { return std::hypot(a.x - b.x, a.y - b.y) < 0.01; };
                    return (close(ours.points.front(), theirs.points[0]) && close(ours.points.back(), theirs.points[1])) ||
                           (close(ours.points.front(), theirs.points[1]) && close(ours.points.back(), theirs.points[0]));
                };
                const bool there = std::any_of(own.begin(), own.end(), alike);
                CHECK_MESSAGE(there, theirs.points[0].x << " " << theirs.points[0].y << " to " << theirs.points[1].x << " "
                                                        << theirs.points[1].y << ", " << theirs.width << " mm wide");
            }
            if (sheets.name == "templates") { continue; } // windows cut what they show
            const box a = extent_of(own), b = extent_of(cairo);
            CHECK(near::within(a.left, b.left, 0.02));
            CHECK(near::within(a.top, b.top, 0.02));
            CHECK(near::within(a.right(), b.right(), 0.02));
            CHECK(near::within(a.bottom(), b.bottom(), 0.02));
        }
    }
}

TEST_CASE("both back ends set every word at the same place, to a fifth of a millimetre") {
    if (!same_face()) { return; }
    const files::scratch_folder folder;
    for (const auto& sheets : all_drawings()) {
        const auto pdf = folder.write("s.pdf", drawing::pdf_of(sheets.pages, ""));
        for (std::size_t n = 0; n < sheets.pages.size(); ++n) {
            CAPTURE(sheets.name);
            CAPTURE(n);
            const std::string number = std::to_string(n + 1);
            const std::string html =
                drawn::output_of("pdftotext -bbox -f " + number + " -l " + number + " '" + pdf.string() + "' -");
            std::multimap<std::string, box> words;
            const std::regex word("<word xMin=\"([-0-9.]+)\" yMin=\"([-0-9.]+)\" xMax=\"([-0-9.]+)\" "
                                  "yMax=\"([-0-9.]+)\">([^<]*)<");
            for (std::sregex_iterator at(html.begin(), html.end(), word), end; at != end; ++at) {
                const double left = std::stod((*at)[1]) * point, top = std::stod((*at)[2]) * point;
                words.insert(
                    {(*at)[5], {left, top, std::stod((*at)[3]) * point - left, std::stod((*at)[4]) * point - top}});
            }
            std::size_t compared = 0;
            for (const auto& line : drawn::lines_of(drawing::svg_of(sheets.pages[n]))) {
                // Lines of one word that is read from left to right: their box is the word's.
                if (line.upward || line.words.size() < 3 || line.words.find_first_of(" &") != std::string::npos) {
                    continue;
                }
                const auto [from, to] = words.equal_range(line.words);
                if (from == to) { continue; } // joined with what stands beside it
                ++compared;
                const bool there = std::any_of(from, to, [&](const auto& w) {
                    return std::abs(w.second.left - line.start.x) < 0.2 &&
                           std::abs(w.second.right() - line.start.x - line.width) < 0.2 && w.second.top < line.start.y &&
                           w.second.bottom() > line.start.y;
                });
                CHECK_MESSAGE(there, line.words);
            }
            if (sheets.name == "buzz_map") { CHECK(compared > 100); }
        }
    }
}

TEST_CASE("text in SVG is written out, and so are hostile titles in a page's picture") {
    CHECK(drawing::markup_text("<b> & \"q\" 'a' \x1b") == "&lt;b&gt; &amp; &quot;q&quot; &#39;a&#39; \\x1b");
    const drawing::page p{{0, 0, 50, 20}, [](drawing::canvas& c) { c.text({5, 10}, "</svg><script>x</script>"); }};
    const std::string element = drawing::svg_element(p, "\" onload=\"x");
    CHECK(element.find("<script>") == std::string::npos);
    CHECK(element.find("aria-label=\"&quot; onload=&quot;x\"") != std::string::npos);
    // Nothing that is not seen stands in the file; what is drawn within a window is shown through it only.
    const drawing::page hidden{{0, 0, 50, 20}, [](drawing::canvas& c) {
                                   c.text({500, 10}, "far away");
                                   c.line({100, 0}, {200, 0});
                                   c.within({10, 5, 5, 5}, {10, 5}, [](drawing::canvas& in) { in.line({0, 0}, {50, 0}); });
                               }};
    const std::string svg = drawing::svg_of(hidden);
    CHECK(svg.find("far away") == std::string::npos);
    const auto strokes = drawn::strokes_of(svg);
    REQUIRE(strokes.size() == 1);
    CHECK(strokes[0].points[0].x == 10);
    CHECK(svg.find("<svg x=\"10\" y=\"5\" width=\"5\" height=\"5\" viewBox=\"0 0 5 5\">") != std::string::npos);
}

TEST_CASE("labels find room: smaller, apart and led, never left out") {
    for (const std::size_t count : {1U, 5U, 24U, 80U}) {
        drawing::place_labels l{.y = 5, .least = 0, .most = 100, .size = 2.3};
        for (std::size_t i = 0; i < count; ++i) {
            l.x.push_back(90 - 40.0 / (1 + static_cast<double>(i)));
            l.words.push_back(std::to_string(i + 1));
        }
        const auto marks = drawing::note({0, 0, 100, 20}, [&](drawing::canvas& c) { drawing::write_labels(c, l); });
        REQUIRE(marks.texts.size() == count);
        for (std::size_t i = 0; i < count; ++i) {
            CHECK(marks.texts[i].around.left >= -1e-6);
            CHECK(marks.texts[i].around.right() <= 100 + 1e-6);
            CHECK(marks.texts[i].around.top > 5);
            if (i > 0) { CHECK(marks.texts[i].around.left >= marks.texts[i - 1].around.right()); }
        }
    }
    const auto lines = [](const std::string& words, double most) {
        std::vector<std::string> all;
        (void)drawing::note({}, [&](drawing::canvas& c) { all = drawing::lines_within(c, words, most, {.size = 2}); });
        return all;
    };
    CHECK(lines("", 10).empty());
    CHECK(lines("one two three", 1000) == std::vector<std::string>{"one two three"});
    CHECK(lines("one two three", 1) == std::vector<std::string>{"one", "two", "three"});
}
