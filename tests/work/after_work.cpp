#include <tautline/work/after_work.hpp>

#include "near.hpp"
#include "setup/demo.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

using demo::strung;

/// A neck so stiff that only geometry is left.
strung_instrument stiff() {
    auto on = strung();
    on.instrument.neck.board_modulus = on.instrument.neck.back_modulus = 1000 * GPa;
    return on;
}

double distance(const point& a, const point& b) {
    return std::sqrt(std::pow((a.x - b.x) / mm, 2) + std::pow((a.y - b.y) / mm, 2) + std::pow((a.z - b.z) / mm, 2));
}

} // namespace

TEST_SUITE("work") {
    TEST_CASE("sanding moves the frame, not the parts: posts, slots, saddle and anchors keep their distances") {
        const auto before = stiff();
        const auto off = least_removal(before.instrument.board, cylinder(400 * mm), 0.1 * mm);
        REQUIRE(off.at_end > off.at_nut); // so that the frame turns as well
        const auto after = after_sanding(before, off);
        const auto a = solve(before), b = solve(after);
        for (std::size_t i = 0; i < 8; ++i) {
            const auto &p = a.bridge_strings[i], &q = b.bridge_strings[i];
            const auto post_a = post_point(before.instrument.headstock, before.instrument.posts[i]);
            const auto post_b = post_point(after.instrument.headstock, after.instrument.posts[i]);
            CHECK(near::relative(distance(p.slot, p.saddle), distance(q.slot, q.saddle), 1e-5));
            CHECK(near::relative(distance(p.slot, post_a), distance(q.slot, post_b), 2e-4));
            CHECK(near::relative(distance(post_a, p.saddle), distance(post_b, q.saddle), 1e-5));
            CHECK(near::relative(distance(p.saddle, p.anchor), distance(q.saddle, q.anchor), 1e-3));
            CHECK(near::within(b.strings[i].at_nut.break_angle, a.strings[i].at_nut.break_angle, 0.02 * deg));
        }
    }
    TEST_CASE("every height grows by what came off under the string") {
        const auto before = stiff();
        const auto off = least_removal(before.instrument.board, cylinder(400 * mm), 0.1 * mm);
        const auto after = after_sanding(before, off);
        const auto a = solve(before), b = solve(after);
        for (const std::size_t i : {std::size_t{0}, std::size_t{3}, std::size_t{7}}) {
            for (const std::size_t n : {std::size_t{0}, std::size_t{11}, std::size_t{18}}) {
                const auto& s = a.strings[i];
                const auto x = a.fret_x[n];
                const auto y = s.y_at_nut + (s.y_at_saddle - s.y_at_nut) * ratio(x, length<>(s.line.saddle_x));
                CHECK(near::within(b.strings[i].heights[n] - s.heights[n], removal_at(off, x, y), 0.003 * mm));
            }
        }
        const auto drop = [](double r) { return r - std::sqrt(r * r - 13 * 13); };
        // By hand at the nut: a 26 mm spread, radius 205 to 400, 0.1 mm allowance and what the board's edge asks there.
        CHECK(near::within(after.instrument.nut.slot_heights[0] - before.instrument.nut.slot_heights[0],
                           off.at_nut + (drop(400) - drop(205)) * mm, 1e-9 * mm));
    }
    TEST_CASE("the neck loses the wood of the board, not of its back") {
        const auto before = strung();
        const auto off = least_removal(before.instrument.board, cylinder(400 * mm), 0.1 * mm);
        const auto after = after_sanding(before, off);
        neck was, is;
        neck_of(before.instrument, was);
        neck_of(after.instrument, is);
        for (std::size_t k = 0; k < 2; ++k) {
            CHECK(near::within(is.stations[k].back_depth, was.stations[k].back_depth, 1e-12 * mm));
            CHECK(near::within(was.stations[k].board_thickness - is.stations[k].board_thickness,
                               removal_at(off, was.stations[k].x, 0 * mm), 1e-12 * mm));
        }
        const auto a = solve(before), b = solve(after);
        CHECK(b.nut_rise > a.nut_rise); // thinner is softer
        CHECK(near::within(*a.line_at_saddle - *b.line_at_saddle, removal_at(off, 560 * mm, 0 * mm), 0.2 * mm));
    }
    TEST_CASE("a rod keeps its place in the wood") {
        auto before = strung();
        before.instrument.neck.rod = truss_rod{.x_from = 10 * mm, .x_to = 270 * mm, .z_ends = -14 * mm, .dip = 0 * mm};
        before.instrument.neck.rod_pull = 0 * N;
        const auto off = least_removal(before.instrument.board, cylinder(400 * mm), 0.1 * mm);
        const auto after = after_sanding(before, off);
        CHECK(near::within(after.instrument.neck.rod->z_ends + 14 * mm, removal_at(off, 140 * mm, 0 * mm), 1e-12 * mm));
        CHECK(near::within(height_after_sanding(off, 425 * mm, -3 * mm) + 3 * mm, removal_at(off, 425 * mm, 0 * mm),
                           1e-12 * mm));
    }
    TEST_CASE("sanding twice is sanding once to the same surface") {
        const auto before = strung();
        const auto first = least_removal(before.instrument.board, cylinder(300 * mm), 0 * mm);
        const auto between = after_sanding(before, first);
        const auto second = least_removal(between.instrument.board, cylinder(400 * mm), 0 * mm);
        const auto twice = after_sanding(between, second);
        basic_removal<double> both{.found = before.instrument.board.surface,
                                   .wanted = cylinder(400 * mm),
                                   .board_length = 400 * mm,
                                   .at_nut = first.at_nut + second.at_nut,
                                   .at_end = first.at_end + second.at_end};
        const auto once = after_sanding(before, both);
        CHECK(near::within(twice.instrument.nut.slot_heights[0], once.instrument.nut.slot_heights[0], 1e-12 * mm));
        CHECK(near::within(twice.instrument.saddle.board_line, once.instrument.saddle.board_line, 1e-12 * mm));
        CHECK(near::within(twice.instrument.headstock.pitch, once.instrument.headstock.pitch, 1e-8 * rad));
        CHECK(near::within(*twice.instrument.board.thickness_at_end, *once.instrument.board.thickness_at_end, 1e-12 * mm));
    }
    TEST_CASE("new frets lower the heights by what the crowns grew, and a file lifts them by what it took") {
        const auto before = stiff();
        const fret_wire tall{
            .crown_height = 1.2 * mm, .crown_width = 2 * mm, .tang_depth = 1.4 * mm, .tang_thickness = 0.5 * mm};
        const auto fresh = after_refret(before, tall);
        CHECK(fresh.instrument.frets.wear.empty());
        const auto a = solve(before), b = solve(fresh);
        CHECK(near::within(a.strings[2].heights[6] - b.strings[2].heights[6], 1.2 * mm - 0.85 * mm, 1e-9 * mm));

        std::vector<length<>> cuts(19, 0 * mm);
        cuts[4] = 0.12 * mm;
        const auto filed = after_levelling<double>(fresh, cuts);
        const auto c = solve(filed);
        CHECK(near::within(c.strings[2].heights[4] - b.strings[2].heights[4], 0.12 * mm, 1e-9 * mm));
        CHECK(near::within(c.strings[2].heights[5] - b.strings[2].heights[5], 0 * mm, 1e-12 * mm));
    }
    TEST_CASE("what cannot be is refused") {
        const auto before = strung();
        auto other = least_removal(before.instrument.board, cylinder(400 * mm), 0 * mm);
        other.board_length = 350 * mm;
        CHECK_THROWS_WITH_AS((void)after_sanding(before, other), "removal.board_length must be that of the board.",
                             invalid_input);
        auto through = least_removal(before.instrument.board, cylinder(400 * mm), 0 * mm);
        through.at_nut = through.at_end = 6 * mm;
        CHECK_THROWS_AS((void)after_sanding(before, through), invalid_input);
        const std::vector<length<>> few(3, 0 * mm), negative(19, -0.1 * mm), whole(19, 0.9 * mm);
        CHECK_THROWS_AS((void)after_levelling<double>(before, few), invalid_input);
        CHECK_THROWS_AS((void)after_levelling<double>(before, negative), invalid_input);
        CHECK_THROWS_AS((void)after_levelling<double>(before, whole), invalid_input);
        CHECK_THROWS_AS((void)after_refret(before, fret_wire()), invalid_input);
        CHECK_THROWS_AS((void)height_after_sanding(other, NAN * mm, 0 * mm), invalid_input);
    }
}
