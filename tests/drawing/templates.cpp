// Templates in true size. Lengths are measured in the files: in SVG coordinates, in the PDF's own units as poppler reads
// them, and in dots of the PDF rendered by poppler.
#include <algorithm>
#include <map>
#include <regex>

#include <plan.hpp>
#include <tautline/board/markers.hpp>
#include <template_parts.hpp>
#include <templates.hpp>

#include <doctest/doctest.h>

#include "near.hpp"
#include "read_back.hpp"
#include "solved.hpp"

using namespace tautline;
using namespace tautline::units;
using drawing::place;
using drawn::stroke;
using drawn::strokes_of;

namespace {

/// Paper keeps a 256th of a point in cairo's files: some 1.4 micrometres, rounded at both ends of a length.
constexpr double file_step = 0.004;

drawing::sheets drawn_templates(const drawing::subject& found, const drawing::subject* planned = nullptr,
                                drawing::paper on = drawing::paper::a4) {
    return drawing::templates({"A title", on, drawing::measures::both}, found, planned);
}
std::vector<stroke> with_width(const std::vector<stroke>& all, double width) {
    std::vector<stroke> out;
    std::copy_if(all.begin(), all.end(), std::back_inserter(out),
                 [&](const stroke& s) { return std::abs(s.width - width) < 0.005; });
    return out;
}
bool has_length(const std::vector<stroke>& all, double mm_long, bool upright) {
    return std::any_of(all.begin(), all.end(), [&](const stroke& s) {
        return (upright ? s.upright() : s.level()) && std::abs(s.length() - mm_long) < file_step;
    });
}
/// Fret lines of a page: strokes across the board, sorted from the nut.
std::vector<stroke> fret_strokes(const std::vector<stroke>& all) {
    std::vector<stroke> out;
    for (const stroke& s : with_width(all, 0.2)) {
        if (s.is_line() && s.length() > 25) { out.push_back(s); }
    }
    std::sort(out.begin(), out.end(), [](const stroke& a, const stroke& b) { return a.points[0].x < b.points[0].x; });
    return out;
}
/// The nut's line.
stroke nut_stroke(const std::vector<stroke>& all) {
    for (const stroke& s : with_width(all, 0.35)) {
        if (s.is_line()) { return s; }
    }
    FAIL("no nut");
    return {};
}
/// Centres of the registration crosses that lie on the page: where two lines of 8 mm cross in their middles.
std::vector<place> crosses(const std::vector<stroke>& all, const drawing::box& room) {
    std::vector<place> out;
    for (const stroke& a : all) {
        if (!a.level() || std::abs(a.length() - 8) > file_step) { continue; }
        const place middle{(a.points[0].x + a.points[1].x) / 2, a.points[0].y};
        const bool crossed = std::any_of(all.begin(), all.end(), [&](const stroke& b) {
            return b.upright() && std::abs(b.length() - 8) < file_step && std::abs(b.points[0].x - middle.x) < file_step &&
                   std::abs((b.points[0].y + b.points[1].y) / 2 - middle.y) < file_step;
        });
        if (crossed && middle.x > room.left && middle.x < room.right() && middle.y > room.top && middle.y < room.bottom()) {
            out.push_back(middle);
        }
    }
    return out;
}
/// The longest run of dark dots in any row (or column) of a grey picture.
std::vector<int> dark_runs(const std::string& pgm, bool down) {
    int width = 0, height = 0, offset = 0;
    if (std::sscanf(pgm.c_str(), "P5 %d %d 255%n", &width, &height, &offset) != 2) { return {}; }
    const auto dark = [&](int x, int y) {
        return static_cast<unsigned char>(pgm[static_cast<std::size_t>(offset + 1 + y * width + x)]) < 128;
    };
    std::vector<int> runs;
    for (int i = 0; i < (down ? width : height); ++i) {
        int run = 0, longest = 0;
        for (int k = 0; k < (down ? height : width); ++k) {
            run = (down ? dark(i, k) : dark(k, i)) ? run + 1 : 0;
            longest = std::max(longest, run);
        }
        runs.push_back(longest);
    }
    return runs;
}

} // namespace

TEST_CASE("every page carries both bars of 100 mm, on either paper") {
    const files::scratch_folder folder;
    for (const auto on : {drawing::paper::a4, drawing::paper::letter}) {
        const auto made = drawn_templates(drawn::four_course(), nullptr, on);
        const auto pdf = folder.write("templates.pdf", drawing::pdf_of(made.pages, "A title"));
        REQUIRE(made.pages.size() >= 3);
        for (std::size_t n = 0; n < made.pages.size(); ++n) {
            CAPTURE(n);
            const int page = static_cast<int>(n) + 1;
            for (const auto& strokes : {with_width(strokes_of(drawing::svg_of(made.pages[n])), 0.3),
                                        with_width(drawn::strokes_of_pdf(pdf, page), 0.3)}) {
                CHECK(has_length(strokes, 100, false));
                CHECK(has_length(strokes, 100, true));
            }
            // 254 dots to the inch are 10 to the millimetre; the marks at the ends are 0.15 mm wide.
            const std::string number = std::to_string(page);
            const std::string picture =
                drawn::output_of("pdftoppm -r 254 -gray -f " + number + " -l " + number + " '" + pdf.string() + "'");
            for (const bool down : {false, true}) {
                const auto runs = dark_runs(picture, down);
                CHECK(std::any_of(runs.begin(), runs.end(), [](int r) { return r >= 999 && r <= 1004; }));
            }
            const std::string words =
                drawn::output_of("pdftotext -f " + number + " -l " + number + " '" + pdf.string() + "' -");
            for (const char* said : {"Print at 100 %, no fit to page", "Both bars must measure 100 mm",
                                     "Cut no wood before", "qualified repairer"}) {
                CHECK(words.find(said) != std::string::npos);
            }
            CHECK(words.find("page " + number + " of " + std::to_string(made.pages.size())) != std::string::npos);
        }
        const std::string info = drawn::output_of("pdfinfo '" + pdf.string() + "'");
        CHECK(std::regex_search(info, std::regex("Pages: +" + std::to_string(made.pages.size()) + "\n")));
        CHECK(info.find(on == drawing::paper::a4 ? "(A4)" : "(letter)") != std::string::npos);
    }
}

TEST_CASE("frets lie where the library puts them, across the whole tapered board, over the seam of two pages") {
    for (const bool measured : {false, true}) {
        drawing::subject s = drawn::four_course();
        if (measured) {
            // Old frets stand where they stand.
            for (int n = 1; n <= s.instrument.board.scale.frets; ++n) {
                s.instrument.board.scale.measured_places.push_back(
                    fret_position(drawn::four_course().instrument.board.scale, n) + (n % 3 - 1) * 0.4 * mm);
            }
        }
        const board& b = s.instrument.board;
        const auto made = drawn_templates(s);
        const drawing::box room{22, 22, 265, 156};
        const auto first = strokes_of(drawing::svg_of(made.pages[0])), next = strokes_of(drawing::svg_of(made.pages[1]));
        const stroke nut = nut_stroke(first);
        CHECK(near::within(nut.length(), b.width_at_nut / mm, file_step));
        // The second page, its crosses laid on those of the first.
        const auto here = crosses(first, room), there = crosses(next, room);
        REQUIRE(here.size() == 2);
        REQUIRE(there.size() == 2);
        const double shift = here[0].x - there[0].x;
        CHECK(near::within(here[1].x - there[1].x, shift, file_step));
        CHECK(near::within(here[0].y, there[0].y, file_step));
        CHECK(near::within(here[1].y, there[1].y, file_step));
        std::vector<std::pair<double, double>> frets; // place from the nut, length
        for (const stroke& f : fret_strokes(first)) { frets.emplace_back(f.points[0].x - nut.points[0].x, f.length()); }
        const auto shared = static_cast<std::ptrdiff_t>(frets.size());
        for (const stroke& f : fret_strokes(next)) {
            CHECK(f.upright());
            const double x = f.points[0].x + shift - nut.points[0].x;
            // In the overlap it stands on both pages.
            if (std::none_of(frets.begin(), frets.begin() + shared,
                             [x](const auto& k) { return std::abs(k.first - x) < 2 * file_step; })) {
                frets.emplace_back(x, f.length());
            }
        }
        REQUIRE(frets.size() == 19);
        for (int n = 1; n <= 19; ++n) {
            CAPTURE(n);
            const auto& [x, length] = frets[std::size_t(n) - 1];
            CHECK(near::within(x, fret_position(b.scale, n) / mm, 2 * file_step));
            CHECK(near::within(length, 2 * half_width_at(b, fret_position(b.scale, n)) / mm, file_step));
        }
    }
}

TEST_CASE("the PDF has the frets at the same places") {
    const files::scratch_folder folder;
    const auto s = drawn::four_course();
    const auto made = drawn_templates(s);
    const auto strokes = drawn::strokes_of_pdf(folder.write("t.pdf", drawing::pdf_of(made.pages, "")), 1);
    const stroke nut = nut_stroke(strokes);
    const auto frets = fret_strokes(strokes);
    REQUIRE(frets.size() >= 9); // poppler leaves out what the page cuts off
    for (std::size_t n = 0; n < frets.size(); ++n) {
        CHECK(near::within(frets[n].points[0].x - nut.points[0].x, fret_position(s.instrument.board.scale, int(n) + 1) / mm,
                           2 * file_step));
    }
}

TEST_CASE("distances are printed at the frets") {
    const files::scratch_folder folder;
    const auto made = drawn_templates(drawn::four_course());
    const std::string words =
        drawn::output_of("pdftotext '" + folder.write("t.pdf", drawing::pdf_of(made.pages, "")).string() + "' -");
    // Half the scale, and the CRC Handbook's 2^(1/12) = 1.059463: 560 (1 - 1/1.059463) = 31.430.
    CHECK(words.find("12 280.00 mm = 11.024 in") != std::string::npos);
    CHECK(words.find("1 31.43 mm = 1.237 in") != std::string::npos);
    CHECK(words.find("Board's end at 400.00 mm") != std::string::npos);
}

TEST_CASE("slanted frets cross the outer strings where the library's fan puts them") {
    drawing::subject s = drawn::four_course();
    s.fan = fan{.bass_scale = 580 * mm,
                .treble_scale = 550 * mm,
                .square_fret = 7,
                .frets = 19,
                .y_bass_at_nut = -13 * mm,
                .y_treble_at_nut = 13 * mm,
                .y_bass_at_saddle = -26 * mm,
                .y_treble_at_saddle = 26 * mm};
    const auto strokes = strokes_of(drawing::svg_of(drawn_templates(s).pages[0]));
    const auto frets = fret_strokes(strokes); // those on the first page
    REQUIRE(frets.size() >= 9);
    const stroke nut = nut_stroke(strokes);
    // The centre line crosses the nut at x = 0.
    const auto at_height = [](const stroke& l, double y) {
        return l.points[0].x + (y - l.points[0].y) / (l.points[1].y - l.points[0].y) * (l.points[1].x - l.points[0].x);
    };
    // The square fret tells where the centre line is: its middle.
    const double centre = (frets[6].points[0].y + frets[6].points[1].y) / 2, origin = at_height(nut, centre);
    CHECK(frets[6].upright());
    for (int n = 1; n <= static_cast<int>(frets.size()); ++n) {
        const auto line = fret_line(*s.fan, n);
        for (const auto& p : {line.bass, line.treble}) {
            // Seen on its face, nut at the left: the bass lies below.
            CHECK(near::within(at_height(frets[std::size_t(n) - 1], centre - p.y / mm) - origin, p.x / mm, 0.01));
        }
        // It ends at the board's edges.
        for (const auto& end : frets[std::size_t(n) - 1].points) {
            CHECK(near::within(std::abs(end.y - centre), half_width_at(s.instrument.board, (end.x - origin) * mm) / mm,
                               0.01));
        }
    }
}

TEST_CASE("gauges have the arcs of board and saddle, of both states") {
    const auto found = drawn::four_course(), planned = drawn::four_course_planned();
    const auto made = drawn_templates(found, &planned);
    std::map<long, int> radii; // in tenths of a millimetre
    for (const auto& page : made.pages) {
        for (const stroke& s : with_width(strokes_of(drawing::svg_of(page)), 0.2)) {
            if (s.points.size() < 40) { continue; }
            // The path runs over the upper edge and back under the lower one; its sides stand upright.
            const auto turn = std::adjacent_find(s.points.begin(), s.points.end(), [](const place& p, const place& q) {
                return std::abs(p.x - q.x) < file_step;
            });
            REQUIRE(turn != s.points.end());
            const std::vector<place> upper(s.points.begin(), turn + 1), lower(turn + 1, s.points.end());
            const place &one = upper.front(), &other = upper.back();
            double top = one.y;
            for (const place& p : upper) { top = std::min(top, p.y); }
            // The radius from sagitta and chord.
            const double chord = other.x - one.x, height = (one.y + other.y) / 2 - top,
                         r = (chord * chord / 4 + height * height) / (2 * height);
            const place centre{(one.x + other.x) / 2, top + r};
            for (const place& p : upper) { CHECK(near::within(std::hypot(p.x - centre.x, p.y - centre.y), r, 0.01)); }
            // The lower edge is the upper one moved down.
            CHECK(lower.size() > 15);
            for (const place& p : lower) { CHECK(near::within(std::hypot(p.x - centre.x, p.y - 20 - centre.y), r, 0.01)); }
            for (const double known : {205.0, 300.0}) {
                if (std::abs(r - known) < 0.5) { ++radii[std::lround(known)]; }
            }
        }
    }
    CHECK(radii[205] == 2);
    CHECK(radii[300] == 2);
}

TEST_CASE("nut slots stand at the strings' places, as wide as the strings, on the board's arc") {
    const auto s = drawn::four_course();
    std::vector<stroke> slots;
    for (const auto& page : drawn_templates(s).pages) {
        for (const stroke& k : with_width(strokes_of(drawing::svg_of(page)), 0.1)) {
            if (k.points.size() == 4 && k.points[0].x == k.points[1].x) { slots.push_back(k); }
        }
    }
    REQUIRE(slots.size() == 8);
    const auto middle = [&](std::size_t i) { return (slots[i].points[1].x + slots[i].points[2].x) / 2; };
    for (std::size_t i = 0; i < 8; ++i) {
        const auto& of = s.setup.strings[i];
        CHECK(near::within(middle(i) - middle(0), (of.y_at_nut - s.setup.strings[0].y_at_nut) / mm, 2 * file_step));
        CHECK(near::within(slots[i].points[2].x - slots[i].points[1].x, of.gauge / mm, file_step));
        // Slots of one height over an arc: the outer ones lie lower.
        const double lower = (surface_height(s.instrument.board.surface, 0 * mm, of.y_at_nut) -
                              surface_height(s.instrument.board.surface, 0 * mm, s.setup.strings[0].y_at_nut)) /
                             mm;
        CHECK(near::within(slots[0].points[1].y - slots[i].points[1].y, lower, 2 * file_step));
    }
}

TEST_CASE("dots stand where the library lays them out") {
    const auto s = drawn::four_course();
    const auto made = drawn_templates(s);
    const auto strokes = strokes_of(drawing::svg_of(made.pages[0]));
    const stroke nut = nut_stroke(strokes);
    const double centre = (nut.points[0].y + nut.points[1].y) / 2;
    std::vector<place> rings;
    for (const stroke& k : with_width(strokes, 0.15)) {
        if (k.dashed && k.points.size() > 4) { rings.push_back({k.points[0].x - 3, k.points[0].y}); }
    }
    // Those on the first page; what lies on the second is not in its file.
    std::size_t dots = 0;
    for (const auto& m : markers(s.instrument.board)) {
        if (m.x > 240 * mm) { continue; }
        for (const auto& y : m.y) {
            ++dots;
            CHECK(std::any_of(rings.begin(), rings.end(), [&](const place& r) {
                return std::hypot(r.x - nut.points[0].x - m.x / mm, r.y - centre + y / mm) < 0.01;
            }));
        }
    }
    CHECK(rings.size() == dots);
    CHECK(dots == 4);
}

TEST_CASE("dots that are chosen or left off singly are drawn so") {
    drawing::subject s = drawn::four_course();
    const auto usual = drawing::marker_places(s);
    const auto off = [&](auto&& change) {
        drawing::subject other = s;
        change(other.dots);
        return drawing::marker_places(other);
    };
    CHECK(off([](marker_layout& d) { d.without = {5}; }).face.size() == usual.face.size() - 1);
    CHECK(off([](marker_layout& d) { d.without = {12}; }).side.size() == usual.side.size() - 2);
    const auto more = off([](marker_layout& d) { d.at = {{.fret = 2, .dots = 1}}; });
    REQUIRE(more.face.size() == usual.face.size() + 1);
    const auto lines = drawing::fret_lines(s);
    const double middle = (lines[1].bass.x + lines[2].bass.x) / 2;
    CHECK(std::any_of(more.face.begin(), more.face.end(),
                      [&](const place& p) { return std::abs(p.x - middle) < 1e-9 && std::abs(p.y) < 1e-9; }));
    // The same on slanted frets.
    s.instrument.board.scale.fan = two_scales{.bass_scale = 575 * mm, .treble_scale = 555 * mm, .square_fret = 6};
    s.setup = solve(strung_instrument{s.instrument, s.stringing});
    const auto fanned = drawing::marker_places(s);
    CHECK(fanned.face.size() == usual.face.size());
    s.dots.without = {3, 12};
    CHECK(drawing::marker_places(s).face.size() == usual.face.size() - 3);
}

TEST_CASE("an instrument of two scales is drawn with the fan of its own outer strings") {
    drawing::subject s = drawn::four_course();
    s.instrument.board.scale.fan = two_scales{.bass_scale = 575 * mm, .treble_scale = 555 * mm, .square_fret = 6};
    s.setup = solve(strung_instrument{s.instrument, s.stringing});
    const auto page_of = [](const drawing::subject& one) { return drawing::svg_of(drawn_templates(one).pages[0]); };
    const auto own = page_of(s);
    // The same frets, told beside the instrument.
    drawing::subject told = s;
    const auto &bass = s.setup.strings.front(), &treble = s.setup.strings.back();
    told.fan = fan{.bass_scale = 575 * mm,
                   .treble_scale = 555 * mm,
                   .square_fret = 6,
                   .frets = s.instrument.board.scale.frets,
                   .y_bass_at_nut = bass.y_at_nut,
                   .y_treble_at_nut = treble.y_at_nut,
                   .y_bass_at_saddle = bass.y_at_saddle,
                   .y_treble_at_saddle = treble.y_at_saddle};
    CHECK(own == page_of(told));
    CHECK(own != page_of(drawn::four_course()));
}

TEST_CASE("a left-handed instrument's templates are the mirror image of a right-handed one's") {
    auto right = drawn::fanned();
    auto left = right;
    left.left_handed = true;
    const auto a = drawn_templates(right), b = drawn_templates(left);
    REQUIRE(a.pages.size() == b.pages.size());
    // The board: upside down, place by place.
    const auto one = strokes_of(drawing::svg_of(a.pages[0])), other = strokes_of(drawing::svg_of(b.pages[0]));
    const auto frets = fret_strokes(one), mirrored = fret_strokes(other);
    REQUIRE(frets.size() == mirrored.size());
    const stroke nut = nut_stroke(one), its_nut = nut_stroke(other);
    const auto middle = [](const stroke& s) { return (s.points[0].y + s.points[1].y) / 2; };
    for (std::size_t n = 0; n < frets.size(); ++n) {
        const auto lower = [](const stroke& s) { return s.points[0].y > s.points[1].y ? s.points[0] : s.points[1]; };
        const auto upper = [](const stroke& s) { return s.points[0].y > s.points[1].y ? s.points[1] : s.points[0]; };
        CHECK(near::within(lower(frets[n]).x - lower(nut).x, upper(mirrored[n]).x - upper(its_nut).x, 2 * file_step));
        CHECK(near::within(lower(frets[n]).y - middle(nut), middle(its_nut) - upper(mirrored[n]).y, 2 * file_step));
    }
    // A fan's bass is longer: fret 1 begins further left at the bass, which lies below on a right-handed board.
    CHECK(frets[0].points[0].x != frets[0].points[1].x);
    const auto& low = frets[0].points[0].y > frets[0].points[1].y ? frets[0].points[0] : frets[0].points[1];
    const auto& high = frets[0].points[0].y > frets[0].points[1].y ? frets[0].points[1] : frets[0].points[0];
    CHECK(low.x < high.x);
    // The nut's slots, bass at the right.
    const auto slots = [&](const drawing::sheets& made) {
        std::vector<double> wide;
        for (const auto& page : made.pages) {
            for (const stroke& k : with_width(strokes_of(drawing::svg_of(page)), 0.1)) {
                if (k.points.size() == 4 && k.points[0].x == k.points[1].x) {
                    wide.push_back(k.points[2].x - k.points[1].x);
                }
            }
        }
        return wide;
    };
    auto from_bass = slots(a), from_treble = slots(b);
    REQUIRE(from_bass.size() == 4);
    REQUIRE(from_treble.size() == 4);
    CHECK(from_bass.front() > from_bass.back());
    std::reverse(from_treble.begin(), from_treble.end());
    for (std::size_t k = 0; k < 4; ++k) { CHECK(near::within(from_bass[k], from_treble[k], file_step)); }
}

TEST_CASE("a fan's template says what every fret's ends are cut to") {
    const files::scratch_folder folder;
    for (const bool by_places : {false, true}) {
        const auto s = drawn::fanned(by_places);
        const std::string words = drawn::output_of(
            "pdftotext '" + folder.write("t.pdf", drawing::pdf_of(drawn_templates(s).pages, "")).string() + "' -");
        const auto lines = lines_on_board(s.instrument);
        for (const std::size_t n : {std::size_t{1}, std::size_t{12}}) {
            const auto cut = end_angles(lines[n], s.instrument.board);
            for (const auto& one : {cut.bass, cut.treble}) {
                CHECK(words.find(fixed_text(one, deg, 1) + " deg") != std::string::npos);
            }
        }
        CHECK(words.find(by_places ? "along the edges" : "along the outermost strings") != std::string::npos);
        CHECK(words.find("the bass edge is below") != std::string::npos);
    }
}

TEST_CASE("the bridge from above has every saddle where the setup has it") {
    for (const bool left : {false, true}) {
        auto s = drawn::fanned();
        s.left_handed = left;
        std::vector<place> rings;
        for (const auto& page : drawn_templates(s).pages) {
            const auto strokes = with_width(strokes_of(drawing::svg_of(page)), 0.12);
            std::vector<place> here;
            for (const stroke& a : strokes) {
                if (!a.level() || std::abs(a.length() - 4) > file_step) { continue; }
                const place middle{(a.points[0].x + a.points[1].x) / 2, a.points[0].y};
                const bool crossed = std::any_of(strokes.begin(), strokes.end(), [&](const stroke& b) {
                    return b.upright() && std::abs(b.length() - 4) < file_step &&
                           std::hypot(b.points[0].x - middle.x, (b.points[0].y + b.points[1].y) / 2 - middle.y) < file_step;
                });
                if (crossed) { here.push_back(middle); }
            }
            if (here.size() == 4) { rings = here; }
        }
        REQUIRE(rings.size() == 4);
        std::sort(rings.begin(), rings.end(),
                  [left](const place& a, const place& b) { return left ? a.y < b.y : a.y > b.y; });
        for (std::size_t k = 0; k < 4; ++k) {
            const auto &of = s.setup.strings[k], &first = s.setup.strings[0];
            CHECK(near::within(rings[k].x - rings[0].x, (of.line.saddle_x - first.line.saddle_x) / mm, 2 * file_step));
            CHECK(
                near::within(std::abs(rings[k].y - rings[0].y), (of.y_at_saddle - first.y_at_saddle) / mm, 2 * file_step));
        }
    }
    // One straight top on square frets has nothing to show there.
    const files::scratch_folder folder;
    const auto words = [&](const drawing::subject& s) {
        return drawn::output_of("pdftotext '" +
                                folder.write("t.pdf", drawing::pdf_of(drawn_templates(s).pages, "")).string() + "' -");
    };
    CHECK(words(drawn::fanned()).find("Bridge from above") != std::string::npos);
    CHECK(words(drawn::four_course()).find("Bridge from above") == std::string::npos);
}

TEST_CASE("no word of a fan's templates lies on another, and none beyond what is drawn") {
    const files::scratch_folder folder;
    for (const bool by_places : {false, true}) {
        for (const auto written : {drawing::measures::metric, drawing::measures::both}) {
            const auto s = drawn::fanned(by_places);
            std::vector<drawing::true_size> things{drawing::fret_template(s, written)};
            for (auto& t : drawing::bridge_templates(s, written)) { things.push_back(std::move(t)); }
            REQUIRE(things.size() == 3);
            for (const auto& thing : things) {
                const std::vector<drawing::page> alone{{{0, 0, thing.width, thing.height}, thing.draw}};
                const auto pdf = folder.write("t.pdf", drawing::pdf_of(alone, ""));
                const std::string html = drawn::output_of("pdftotext -bbox '" + pdf.string() + "' -");
                struct word_box {
                    double left, top, right, bottom;
                    std::string word;
                };
                std::vector<word_box> boxes;
                const std::regex word("<word xMin=\"([-0-9.]+)\" yMin=\"([-0-9.]+)\" xMax=\"([-0-9.]+)\" "
                                      "yMax=\"([-0-9.]+)\">([^<]*)<");
                for (std::sregex_iterator at(html.begin(), html.end(), word), end; at != end; ++at) {
                    boxes.push_back(
                        {std::stod((*at)[1]), std::stod((*at)[2]), std::stod((*at)[3]), std::stod((*at)[4]), (*at)[5]});
                }
                CHECK(boxes.size() > 10);
                constexpr double points = 72 / 25.4;
                for (std::size_t i = 0; i < boxes.size(); ++i) {
                    CHECK_MESSAGE(boxes[i].left > 0, boxes[i].word);
                    CHECK_MESSAGE(boxes[i].right < thing.width * points, boxes[i].word);
                    CHECK_MESSAGE(boxes[i].top > -1, boxes[i].word);
                    CHECK_MESSAGE(boxes[i].bottom < thing.height * points + 1, boxes[i].word);
                    for (std::size_t k = i + 1; k < boxes.size(); ++k) {
                        // Boxes have room for tall letters that numbers do not use.
                        const auto &a = boxes[i], &b = boxes[k];
                        const double wide = std::min(a.right, b.right) - std::max(a.left, b.left),
                                     high = std::min(a.bottom, b.bottom) - std::max(a.top, b.top);
                        const bool apart = wide < 1 || high < 1;
                        CHECK_MESSAGE(apart, a.word, " on ", b.word);
                    }
                }
            }
        }
    }
}
