// A fan whose scales nobody knows: its frets' places as they were measured along both edges of the board.
#include <tautline/core/leaves.hpp>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/setup/solve.hpp>

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

strung_instrument bass_of_two_scales(double bass = 880, double treble = 845, double square = 7) {
    auto o = ready_made::solid_body_bass();
    o.instrument.board.board_length = 625 * mm;
    o.instrument.board.scale.fan = two_scales{.bass_scale = bass * mm, .treble_scale = treble * mm, .square_fret = square};
    return string_up(o);
}
struct flat_point {
    double x{}, y{};
};
/// The place where a line through two points meets the edge of a board of straight taper, by two lines' determinant.
flat_point on_edge(const board& b, flat_point p, flat_point q, double side) {
    const double w0 = b.width_at_nut / mm / 2 * side, w1 = b.width_at_end / mm / 2 * side, end = b.board_length / mm;
    const double a1 = q.y - p.y, b1 = p.x - q.x, c1 = a1 * p.x + b1 * p.y;
    const double a2 = w1 - w0, b2 = -end, c2 = b2 * w0;
    const double d = a1 * b2 - a2 * b1;
    return {(c1 * b2 - c2 * b1) / d, (a1 * c2 - a2 * c1) / d};
}
/// What a ruler along both edges of a fan's board reads.
two_scales as_measured(const instrument& i) {
    const double y0 = i.nut.spacing.spread / mm / 2, y1 = i.saddle.spacing.spread / mm / 2;
    const auto& f = *i.board.scale.fan;
    const double run_b = std::sqrt(std::pow(f.bass_scale / mm, 2) - std::pow(y1 - y0, 2)),
                 run_t = std::sqrt(std::pow(f.treble_scale / mm, 2) - std::pow(y1 - y0, 2));
    const double lead = (run_b - run_t) * (1 - std::exp2(-f.square_fret / 12.0));
    const auto end_of = [&](int n, double side) {
        const double gone = 1 - std::exp2(-n / 12.0), y = y0 + (y1 - y0) * gone;
        return on_edge(i.board, {-lead / 2 + run_b * gone, -y}, {lead / 2 + run_t * gone, y}, side);
    };
    const flat_point nut_b = end_of(0, -1), nut_t = end_of(0, 1);
    std::vector<field<length<>>> bass, treble;
    for (int n = 1; n <= i.board.scale.frets; ++n) {
        const flat_point b = end_of(n, -1), t = end_of(n, 1);
        bass.push_back(std::hypot(b.x - nut_b.x, b.y - nut_b.y) * mm);
        treble.push_back(std::hypot(t.x - nut_t.x, t.y - nut_t.y) * mm);
    }
    return fan_by_places<double>(bass, treble, (nut_t.x - nut_b.x) * mm);
}
strung_instrument by_ruler(strung_instrument on) {
    on.instrument.board.scale.fan = as_measured(on.instrument);
    return on;
}
std::map<std::string, double> solved_numbers(const strung_instrument& on) {
    std::map<std::string, double> all;
    const auto s = solve(on);
    for_each_leaf(s, [&](std::string_view path, const auto& x) { all[std::string(path)] = double(number_of(x)); });
    return all;
}
std::string refusal(const strung_instrument& on) {
    try {
        (void)solve(on);
    } catch (const invalid_input& e) { return e.what(); }
    return "nothing";
}
bool starts(const std::string& text, std::string_view with) { return text.starts_with(with); }

} // namespace

TEST_SUITE("fan by measured places") {
    TEST_CASE("places that a ruler reads off a fan of two scales make the same instrument") {
        for (const double square : {0.0, 7.0, 12.0}) {
            const auto on = bass_of_two_scales(880, 845, square);
            const auto by_scales = solved_numbers(on), by_places = solved_numbers(by_ruler(on));
            CHECK(by_scales.size() == by_places.size());
            for (const auto& row : by_places) {
                const std::string& path = row.first;
                // Pinched plucks and places that are found by search have steps of their own.
                if (path.find("index") != std::string::npos || path.find("plucks") != std::string::npos) { continue; }
                CAPTURE(path);
                CHECK(std::abs(row.second - by_scales.at(path)) <= 1e-7 * std::abs(row.second) + 1e-9);
            }
        }
    }
    TEST_CASE("the same lines: nut, frets and saddle, and frets counted beyond the board's") {
        const auto on = bass_of_two_scales();
        auto one = on.instrument, other = by_ruler(on).instrument;
        const kernel::board_lines<double> a(one), b(other);
        for (int n = 0; n <= 24; ++n) {
            CHECK(near::within(a.fret(n).x, b.fret(n).x, 1e-9 * mm));
            CHECK(near::within(a.fret(n).lean, b.fret(n).lean, 1e-12));
        }
        CHECK(near::within(a.saddle().x, b.saddle().x, 1e-9 * mm));
        CHECK_FALSE(fan_of_board(other).has_value());
        const auto lines = lines_on_board(other), lines_of_scales = lines_on_board(one);
        REQUIRE(lines.size() == static_cast<std::size_t>(one.board.scale.frets) + 1);
        for (std::size_t n = 0; n < lines.size(); ++n) {
            CHECK(near::within(lines[n].bass.x, lines_of_scales[n].bass.x, 1e-9 * mm));
            CHECK(near::within(lines[n].treble.y, lines_of_scales[n].treble.y, 1e-9 * mm));
        }
    }
    TEST_CASE("square frets told along both edges are square, a slant of a micrometre is one, a mirrored fan its mirror") {
        auto plain = string_up(ready_made::solid_body_bass());
        auto edges = plain;
        const auto& b = plain.instrument.board;
        const double taper = (b.width_at_end - b.width_at_nut) / 2.0 / b.board_length;
        two_scales m;
        m.nut_slant = 0 * mm;
        for (int n = 1; n <= b.scale.frets; ++n) {
            m.bass_places.push_back(fret_position(b.scale, n) * std::sqrt(1 + taper * taper));
        }
        m.treble_places = m.bass_places;
        edges.instrument.board.scale.fan = m;
        const auto a = solve(plain), c = solve(edges);
        for (std::size_t i = 0; i < a.strings.size(); ++i) {
            CHECK(near::relative(a.strings[i].tension, c.strings[i].tension, 1e-9));
            CHECK(near::within(a.strings[i].heights[11], c.strings[i].heights[11], 1e-6 * mm));
            CHECK(near::within(a.strings[i].notes[6].error.cents(), c.strings[i].notes[6].error.cents(), 1e-4));
        }
        edges.instrument.board.scale.fan->nut_slant = 0.001 * mm;
        const auto d = solve(edges);
        for (std::size_t i = 0; i < a.strings.size(); ++i) {
            CHECK(near::within(c.strings[i].heights[11], d.strings[i].heights[11], 1e-4 * mm));
        }
        const auto fan = by_ruler(bass_of_two_scales());
        auto mirror = fan;
        auto& i = mirror.instrument;
        std::swap(i.board.scale.fan->bass_places, i.board.scale.fan->treble_places);
        i.board.scale.fan->nut_slant = -length<>(*fan.instrument.board.scale.fan->nut_slant);
        std::reverse(mirror.stringing.strings.begin(), mirror.stringing.strings.end());
        std::reverse(i.posts.begin(), i.posts.end());
        for (auto& p : i.posts) { p.across = -p.across; }
        std::reverse(i.nut.slot_heights.begin(), i.nut.slot_heights.end());
        std::swap(i.saddle.height_bass, i.saddle.height_treble);
        std::swap(i.saddle.setback_bass, i.saddle.setback_treble);
        const auto left = solve(fan), right = solve(mirror);
        for (std::size_t k = 0; k < 4; ++k) {
            CHECK(near::relative(left.strings[k].tension, right.strings[3 - k].tension, 1e-9));
            CHECK(near::within(left.strings[k].heights[4], right.strings[3 - k].heights[4], 1e-9 * mm));
        }
    }
    TEST_CASE("twice nut to octave fret is each outer string's scale, whatever the places are") {
        auto on = by_ruler(bass_of_two_scales());
        auto& f = *on.instrument.board.scale.fan;
        for (auto& x : f.bass_places) { x = x * 1.01; }
        f.treble_places[11] = f.treble_places[11] + 0.4 * mm;
        on.instrument.saddle.setback_bass = on.instrument.saddle.setback_treble = 0 * mm;
        const auto s = solve(on);
        for (const std::size_t k : {std::size_t{0}, std::size_t{3}}) {
            const auto& one = s.strings[k];
            CHECK(near::within(one.crest_x[11] - one.line.nut_x, (one.line.saddle_x - one.line.nut_x) / 2.0, 1e-9 * mm));
        }
        CHECK(s.octave_fret == 12);
    }
    TEST_CASE("derivatives go through") {
        using D = dual<double, 1>;
        const auto on = by_ruler(bass_of_two_scales());
        auto d = over<D>(on);
        auto& x = d.instrument.board.scale.fan->treble_places[11];
        x = length<D>::from_value(D::variable(x.value().value, 0));
        const auto slope = solve(d).strings[3].tension.value().partial[0];
        const auto at = [&](double more) {
            auto other = on;
            auto& place = other.instrument.board.scale.fan->treble_places[11];
            place = place + more * mm;
            return solve(other).strings[3].tension.value();
        };
        CHECK(near::relative(slope, (at(0.01) - at(-0.01)) / 2e-5, 1e-5));
        CHECK(slope > 0);
    }
    TEST_CASE("what cannot be is named") {
        const auto on = by_ruler(bass_of_two_scales());
        const auto with = [&](auto&& change) {
            auto other = on;
            change(other.instrument);
            return refusal(other);
        };
        CHECK(starts(with([](auto& i) { i.board.scale.fan->treble_places.pop_back(); }),
                     "board.scale.fan.treble_places must be as many as along the other edge, 20, but there are 19"));
        CHECK(starts(with([](auto& i) { i.board.scale.fan->bass_places.clear(); }),
                     "board.scale.fan.bass_places must be as many as along the other edge"));
        CHECK(starts(
            with([](auto& i) { i.board.scale.fan->bass_places[7] = i.board.scale.fan->bass_places[6]; }),
            "board.scale.fan.bass_places[7] must lie beyond the fret before it: two frets would cross on the board"));
        CHECK(starts(with([](auto& i) { i.board.scale.fan->nut_slant.reset(); }),
                     "board.scale.fan.nut_slant must be given where frets are told by their places"));
        CHECK(starts(with([](auto& i) {
                         i.board.scale.fan->bass_places.pop_back();
                         i.board.scale.fan->treble_places.pop_back();
                     }),
                     "board.scale.fan.bass_places must be one for each of the 20 frets, but there are 19"));
        CHECK(starts(with([](auto& i) {
                         i.board.scale.fan->bass_places.resize(10);
                         i.board.scale.fan->treble_places.resize(10);
                         i.board.scale.frets = 10;
                         i.neck.joint_fret = 10;
                     }),
                     "board.scale.frets must reach the octave, fret 12"));
        CHECK(with([](auto& i) { i.saddle.spacing.spread = 110 * mm; }).find("runs beside the end of fret") !=
              std::string::npos);
        CHECK(starts(with([](auto& i) {
                         i.board.scale.fan->bass_places.clear();
                         i.board.scale.fan->treble_places.clear();
                         i.board.scale.fan->bass_scale = 880 * mm;
                         i.board.scale.fan->treble_scale = 845 * mm;
                         i.board.scale.fan->square_fret = 7;
                     }),
                     "board.scale.fan.nut_slant must be left out where two scales tell how the nut lies"));
    }
}
