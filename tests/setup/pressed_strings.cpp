// What bends strings besides nut and saddle: free bodies and the work of a small move, geometry worked out here.
#include <cmath>

#include <doctest/doctest.h>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/setup/solve.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// The ready-made bass with a bar behind its saddle.
strung_instrument barred_bass(double bar_mm = 1) {
    auto o = ready_made::solid_body_bass();
    o.instrument.pressing_bar = pressing_bar{.distance = 20 * mm, .height = bar_mm * mm};
    return string_up(o);
}
/// The ready-made mandolin with its tailpiece pressed down.
strung_instrument pressed_mandolin(double height_mm) {
    auto o = ready_made::octave_mandolin();
    o.instrument.tailpiece->pressed_height = height_mm * mm;
    return string_up(o);
}
/// Tension times length from saddle to end, the least over where the string may lie under the bar, in J.
double held_work(const setup& s, const instrument& i, double bar_height_mm) {
    double work = 0;
    for (std::size_t k = 0; k < s.strings.size(); ++k) {
        const point from = s.bridge_strings[k].saddle, to = s.string_ends[k];
        point at = s.bridge_strings[k].anchor;
        at.z = bar_height_mm * mm - i.saddle.board_line - 0.5 * s.strings[k].gauge;
        const auto length_at = [&](double y_mm) {
            at.y = y_mm * mm;
            return (distance_between(from, at) + distance_between(at, to)) / metre;
        };
        double low = std::min(from.y / mm, to.y / mm) - 1, high = std::max(from.y / mm, to.y / mm) + 1;
        for (int round = 0; round < 200; ++round) {
            const double a = low + (high - low) / 3, b = high - (high - low) / 3;
            (length_at(a) < length_at(b) ? high : low) = length_at(a) < length_at(b) ? b : a;
        }
        work += (s.strings[k].tension / N) * length_at((low + high) / 2);
    }
    return work;
}

} // namespace

TEST_SUITE("strings pressed down behind the saddle") {
    TEST_CASE("the break over the saddle is that of the bar, not of the strings' ends") {
        const auto on = barred_bass(), free = string_up(ready_made::solid_body_bass());
        const setup s = solve(on), without = solve(free);
        const auto& i = on.instrument;
        REQUIRE(s.bar_force);
        for (std::size_t k = 0; k < s.strings.size(); ++k) {
            const auto& b = s.bridge_strings[k];
            const double half = 0.5 * (s.strings[k].gauge / mm);
            // Over the body's face: the saddle's axis, and the string pressed to under the bar.
            const double saddle = (b.saddle.z + i.saddle.board_line) / mm, pressed = 1 - half;
            const double behind = (i.board.scale.scale_length + 20 * mm - b.saddle.x) / mm;
            const double ahead = std::atan((b.saddle.z - b.slot.z) / (b.saddle.x - b.slot.x));
            const double after = std::atan((saddle - pressed) / behind);
            // In height alone: strings of the bass run a little sideways.
            CHECK(near::within(s.strings[k].at_saddle.down_break, (ahead + after) * rad, 2e-4 * rad));
            CHECK(s.strings[k].at_saddle.down() > 1.2 * without.strings[k].at_saddle.down());
        }
    }
    TEST_CASE("saddle, bar and ends together bear what the speaking sides pull") {
        const auto on = barred_bass();
        const setup s = solve(on);
        support_force all = *s.bar_force + s.anchor_pull, speaking{};
        for (std::size_t k = 0; k < s.strings.size(); ++k) {
            const auto& b = s.bridge_strings[k];
            all += s.strings[k].at_saddle.on_support;
            const auto u = direction_between<double>(b.saddle, b.slot);
            speaking += {u.x * s.strings[k].tension, u.y * s.strings[k].tension, u.z * s.strings[k].tension};
            CHECK(near::within(s.string_ends[k].x, on.instrument.board.scale.scale_length + 36 * mm, 1e-9 * mm));
        }
        CHECK(near::within(all.x, speaking.x, 1e-8 * N));
        CHECK(near::within(all.y, speaking.y, 1e-8 * N));
        CHECK(near::within(all.z, speaking.z, 1e-8 * N));
        CHECK(s.bar_force->z > 10 * N);
    }
    TEST_CASE("the bar bears what lowering it costs: virtual work") {
        const auto on = barred_bass();
        const setup s = solve(on);
        const double step = 1e-3;
        const double slope =
            (held_work(s, on.instrument, 1 + step) - held_work(s, on.instrument, 1 - step)) / (2 * step * 1e-3);
        CHECK(near::relative(s.bar_force->z, -slope * N, 1e-5));
    }
    TEST_CASE("a bar that the strings do not reach changes nothing and is told") {
        const setup s = solve(barred_bass(12)), without = solve(string_up(ready_made::solid_body_bass()));
        CHECK(near::within(s.down_force, without.down_force, 1e-9 * N));
        CHECK(near::within(s.bar_force->size(), 0 * N, 1e-9 * N));
        CHECK(near::within(s.anchor_pull.x, without.anchor_pull.x, 1e-9 * N));
        int told = 0;
        for (const auto& f : s.findings) { told += f.kind == finding_kind::passes_untouched ? 1 : 0; }
        CHECK(told == 4);
        for (const auto& f : solve(barred_bass()).findings) { CHECK(f.kind != finding_kind::passes_untouched); }
    }
    TEST_CASE("under a hung tailpiece the bar bends the strings, and the tailpiece hangs in their pull from the bar") {
        auto o = ready_made::octave_mandolin();
        o.instrument.pressing_bar = pressing_bar{.distance = 25 * mm, .height = 6 * mm};
        const auto on = string_up(o);
        const setup s = solve(on), without = solve(string_up(ready_made::octave_mandolin()));
        const auto& i = on.instrument;
        CHECK(s.down_force > 1.3 * without.down_force);
        moment<double> about_hinge{};
        const auto hinge_x = i.board.scale.scale_length + i.tailpiece->hinge_distance;
        const auto hinge_z = i.tailpiece->hinge_height - i.saddle.board_line;
        for (std::size_t k = 0; k < s.strings.size(); ++k) {
            const point end = s.string_ends[k];
            const auto u = direction_between<double>(end, s.bridge_strings[k].anchor);
            const auto t = s.strings[k].tension;
            about_hinge += (end.z - hinge_z) * (u.x * t) - (end.x - hinge_x) * (u.z * t);
        }
        CHECK(near::within(about_hinge, 0 * N_m, 1e-6 * N_m));
        CHECK(near::within(s.bar_force->y, 0 * N, 1e-3 * N));
    }
}

TEST_SUITE("a tailpiece that is pressed down") {
    TEST_CASE("strings leave it at the height it is pressed to, and the break follows") {
        const auto on = pressed_mandolin(2);
        const auto& i = on.instrument;
        const setup s = solve(on), hangs = solve(string_up(ready_made::octave_mandolin()));
        // By hand: the hinge is 10 mm below the soundboard's plane, the strings leave 2 mm above it, 100 mm of reach.
        const double back = 180 - std::sqrt(100.0 * 100 - 12 * 12);
        for (std::size_t k = 0; k < s.strings.size(); ++k) {
            CHECK(near::within(s.string_ends[k].z, 2 * mm - i.saddle.board_line, 1e-9 * mm));
            CHECK(near::within(s.string_ends[k].x, 560 * mm + back * mm, 1e-9 * mm));
            CHECK(s.strings[k].at_saddle.down() > hangs.strings[k].at_saddle.down());
        }
        REQUIRE(s.tailpiece_press);
        REQUIRE(s.tailpiece_rise);
        CHECK(near::within(*s.tailpiece_rise, std::asin(0.12) * rad, 1e-12 * rad));
        CHECK(*s.tailpiece_press > 0 * N);
        CHECK_FALSE(hangs.tailpiece_press.has_value());
    }
    TEST_CASE("pressed to where it would hang anyway it needs no press; above that it is told") {
        const auto free = string_up(ready_made::octave_mandolin());
        const setup hangs = solve(free);
        const double z = (hangs.string_ends[0].z + free.instrument.saddle.board_line) / mm;
        const setup same = solve(pressed_mandolin(z)), above = solve(pressed_mandolin(z + 2));
        CHECK(near::within(*same.tailpiece_press, 0 * N, 1e-6 * N));
        CHECK(near::within(same.down_force, hangs.down_force, 1e-6 * N));
        CHECK(*above.tailpiece_press < 0 * N);
        const auto told = [](const setup& s) {
            for (const auto& f : s.findings) {
                if (f.kind == finding_kind::tailpiece_not_pressed) { return true; }
            }
            return false;
        };
        CHECK(told(above));
        CHECK_FALSE(told(solve(pressed_mandolin(z - 2))));
    }
}
