// What is let into a neck and its traced back, from the side and cut across.
#include <algorithm>
#include <regex>

#include <tautline/instrument/neck_cut.hpp>

#include <profile.hpp>
#include <side_view.hpp>
#include <template_parts.hpp>
#include <templates.hpp>

#include <doctest/doctest.h>

#include "near.hpp"
#include "read_back.hpp"
#include "solved.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

drawing::subject with_bars() {
    auto s = drawn::four_course();
    auto& n = s.instrument.neck;
    n.inserts = {{.profile = insert_profile::rectangle,
                  .x_from = 10 * mm,
                  .x_to = 200 * mm,
                  .y = -5 * mm,
                  .top = -7 * mm,
                  .width = 3 * mm,
                  .height = 6 * mm,
                  .modulus = 120 * GPa},
                 {.profile = insert_profile::round,
                  .x_from = 20 * mm,
                  .x_to = 180 * mm,
                  .y = 5 * mm,
                  .top = -8 * mm,
                  .width = 5 * mm,
                  .modulus = 0 * GPa}};
    n.traced = {
        {.x = 100 * mm,
         .profile = {{.y = -15 * mm, .depth = 2 * mm}, {.y = 0 * mm, .depth = 16 * mm}, {.y = 15 * mm, .depth = 2 * mm}}}};
    s.setup = solve(strung_instrument{s.instrument, s.stringing});
    return s;
}

} // namespace

TEST_CASE("bars and channels are seen from the side where they lie, and the traced back as deep as it is") {
    const auto s = with_bars();
    const auto p = drawing::profile_of(s);
    REQUIRE(p.inside.size() == 2);
    const auto& bar = p.inside[0];
    const double rise = deflection_at<double>(s.setup.bow, 10 * mm) / mm;
    CHECK(near::within(bar.front().x, 10.0, 1e-9));
    CHECK(near::within(bar.front().y, rise - 7, 1e-9));
    CHECK(near::within(bar[bar.size() - 2].y, rise - 13, 1e-9));
    const auto at = std::min_element(p.neck.begin(), p.neck.end() - 1, [](const auto& a, const auto& b) {
        return std::abs(a.x - 100) < std::abs(b.x - 100);
    });
    const double deep = deflection_at<double>(s.setup.bow, at->x * mm) / mm - at->y;
    CHECK(near::within(deep, s.instrument.board.thickness / mm + 16, 0.05));
    CHECK(drawing::profile_of(drawn::four_course()).inside.empty());
    const files::scratch_folder folder;
    const auto made = drawing::side_view({"A title"}, s, nullptr);
    const std::string words =
        drawn::output_of("pdftotext '" + folder.write("s.pdf", drawing::pdf_of(made.pages, "")).string() + "' -");
    CHECK(words.find("what is let into the neck") != std::string::npos);
}

TEST_CASE("the neck cut across has its outline, bars and channels in true size, mirrored for a left-handed one") {
    for (const bool left : {false, true}) {
        auto s = with_bars();
        s.left_handed = left;
        const auto sections = drawing::neck_sections(s, drawing::measures::metric);
        // At the nut, at the traced place with both parts' middles beside it, at the joint.
        REQUIRE(sections.size() == 4);
        const auto& second = sections[1];
        const std::vector<drawing::page> alone{{{0, 0, second.width, second.height}, second.draw}};
        const auto strokes = drawn::strokes_of(drawing::svg_of(alone[0]));
        double middle = 0;
        const drawn::stroke* bar = nullptr;
        const drawn::stroke* channel = nullptr;
        for (const auto& k : strokes) {
            if (k.is_line() && k.upright() && k.dashed) { middle = k.points[0].x; }
            if (std::abs(k.width - 0.2) < 0.005 && !k.dashed) { bar = &k; }
            if (std::abs(k.width - 0.2) < 0.005 && k.dashed) { channel = &k; }
        }
        REQUIRE(bar != nullptr);
        REQUIRE(channel != nullptr);
        double least = 1e9, most = -1e9, high = 1e9, low = -1e9;
        for (const auto& p : bar->points) {
            least = std::min(least, p.x);
            most = std::max(most, p.x);
            high = std::min(high, p.y);
            low = std::max(low, p.y);
        }
        CHECK(near::within(most - least, 3.0, 0.01));
        CHECK(near::within(low - high, 6.0, 0.01));
        CHECK(near::within((most + least) / 2 - middle, left ? 5.0 : -5.0, 0.01));
        // The board's top on the centre line is drawn 4 mm below the upper edge.
        CHECK(near::within(high - 4, 7.0, 0.01));
    }
    CHECK(drawing::neck_sections(drawn::four_course(), drawing::measures::metric).empty());
}
