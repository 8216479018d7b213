// Fanned frets in the whole solve: plane geometry by a second method, limits, mirrors, two strings by hand.

#include <algorithm>
#include <cmath>
#include <map>

#include <tautline/core/pack.hpp>
#include <tautline/neck/bending.hpp>
#include <tautline/work/do_work.hpp>
#include <tautline/work/reset.hpp>

#include "demo.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// A five-string bass of two scales, 890 to 840 mm, square at fret 7, on single saddles.
strung_instrument fanned_bass() {
    auto o = ready_made::solid_body_bass();
    auto& i = o.instrument;
    i.board.width_at_nut = 48 * mm;
    i.board.width_at_end = 72 * mm;
    i.board.board_length = 630 * mm;
    i.board.scale.fan = two_scales{.bass_scale = 890 * mm, .treble_scale = 840 * mm, .square_fret = 7};
    i.board.scale.scale_length = length<>::from_value(std::nan("")); // no part of it
    i.nut.spacing = {.spread = 38 * mm, .courses = {1, 1, 1, 1, 1}};
    i.nut.slot_heights = {1.8 * mm, 1.75 * mm, 1.7 * mm, 1.65 * mm, 1.6 * mm};
    i.posts.clear();
    for (int k = 0; k < 5; ++k) {
        i.posts.push_back({.along = (60 + 34 * k) * mm, .across = (-19 + 10 * k) * mm, .height = 5 * mm});
    }
    std::vector<single_saddle> each;
    for (int k = 0; k < 5; ++k) { each.push_back({.height = (11.4 - 0.15 * k) * mm, .setback = (10 - 1.8 * k) * mm}); }
    i.saddle = single_saddles(spacing{.spread = 70 * mm, .courses = {1, 1, 1, 1, 1}}, each, 7.5 * mm);
    i.body_bridge->spread = 70 * mm;
    auto low = o.strings.front();
    low.note = "B0";
    low.gauge = 130 * thou;
    low.core = 36 * thou;
    o.strings.insert(o.strings.begin(), low);
    return string_up(o);
}
/// The same number type, another instrument: a fan whose two scales are alike.
strung_instrument fan_of_none(strung_instrument on) {
    auto& scale = on.instrument.board.scale;
    const double along = scale.scale_length / mm;
    const auto side = [&](double nut, double saddle) {
        return std::sqrt(along * along + (saddle - nut) * (saddle - nut)) * mm;
    };
    const auto from = kernel::outermost(on.instrument.nut.spacing), to = kernel::outermost(on.instrument.saddle.spacing);
    scale.fan = two_scales{
        .bass_scale = side(from[0] / mm, to[0] / mm), .treble_scale = side(from[1] / mm, to[1] / mm), .square_fret = 0};
    return on;
}
/// Results of a fan that a square board does not have, or has under another name.
bool of_fans_alone(const std::string& path) {
    return path.find("crest_x") != std::string::npos || path.starts_with("bass_relief") ||
           path.starts_with("treble_relief");
}
std::string fan_said(const strung_instrument& on) {
    try {
        (void)solve(on);
    } catch (const invalid_input& e) { return e.what(); }
    return "nothing";
}

} // namespace

TEST_SUITE("fanned frets") {
    TEST_CASE("a fan of no fan is a square board") {
        for (const auto& plain :
             {demo::strung(), string_up(ready_made::solid_body_bass()), string_up(ready_made::flat_top())}) {
            const auto square = demo::leaves_of(solve(plain)), fan = demo::leaves_of(solve(fan_of_none(plain)));
            std::size_t compared = 0;
            for (const auto& row : fan) {
                const std::string& path = row.first;
                const double x = row.second;
                if (of_fans_alone(path)) { continue; }
                CAPTURE(path);
                REQUIRE(square.count(path) == 1);
                // Friction's bounds and roots have steps of their own.
                CHECK(std::abs(x - square.at(path)) <= 1e-9 * std::abs(x) + 1e-12);
                ++compared;
            }
            CHECK(compared == square.size());
        }
    }
    TEST_CASE("outer strings that run along the centre line: the same places to the last digit") {
        auto plain = demo::strung();
        plain.instrument.saddle.spacing.spread = plain.instrument.nut.spacing.spread;
        const auto square = solve(plain), fan = solve(fan_of_none(plain));
        CHECK(fan.fret_x == square.fret_x);
        for (std::size_t i = 0; i < square.strings.size(); ++i) {
            CHECK(fan.strings[i].crest_x == square.fret_x);
            CHECK(fan.strings[i].tension == square.strings[i].tension);
            CHECK(fan.strings[i].line.saddle_x == square.strings[i].line.saddle_x);
            for (std::size_t n = 0; n < square.fret_x.size(); ++n) {
                CHECK(std::abs((fan.strings[i].heights[n] - square.strings[i].heights[n]).value()) < 1e-15);
            }
        }
        CHECK(near::relative(fan.nut_rise, square.nut_rise, 1e-12));
        CHECK(near::within(fan.relief->gap, square.relief->gap, 1e-12 * mm));
    }
    TEST_CASE("a fan of a micrometre differs by what first order says") {
        using D = dual<double, 1>;
        const auto none = fan_of_none(demo::strung());
        auto seeded = over<D>(none);
        auto& scale = seeded.instrument.board.scale.fan->bass_scale;
        scale = length<D>::from_value(D::variable(scale.value().value, 0));
        const auto slopes = solve(seeded);
        auto fan = none;
        fan.instrument.board.scale.fan->bass_scale = none.instrument.board.scale.fan->bass_scale + 0.001 * mm;
        const auto at = demo::leaves_of(solve(none)), moved = demo::leaves_of(solve(fan));
        std::size_t changed = 0;
        for_each_leaf(slopes, [&](std::string_view path, const auto& x) {
            const std::string name(path);
            CAPTURE(name);
            const double slope = static_cast<double>(number_of(x).partial[0]) * 1e-6, before = at.at(name);
            if (name.find("index") != std::string::npos || name.find("plucks") != std::string::npos) { return; }
            CHECK(std::abs(moved.at(name) - before - slope) <= 1e-3 * std::abs(slope) + 1e-9 * std::abs(before) + 1e-13);
            changed += std::abs(slope) > 1e-9 * std::abs(before) ? 1 : 0;
        });
        CHECK(changed > 1000);
    }
    TEST_CASE("mirrored, every answer is mirrored") {
        const auto on = fanned_bass();
        auto m = on;
        auto& i = m.instrument;
        std::swap(i.board.scale.fan->bass_scale, i.board.scale.fan->treble_scale);
        std::reverse(m.stringing.strings.begin(), m.stringing.strings.end());
        std::reverse(i.posts.begin(), i.posts.end());
        for (auto& p : i.posts) { p.across = -p.across; }
        std::reverse(i.nut.slot_heights.begin(), i.nut.slot_heights.end());
        i.saddle.single = std::vector<single_saddle>(i.saddle.single.rbegin(), i.saddle.single.rend());
        const auto a = demo::leaves_of(solve(on)), b = demo::leaves_of(solve(m));
        REQUIRE(a.size() == b.size());
        for (const auto& row : a) {
            const std::string& path = row.first;
            const double x = row.second;
            std::string other = path;
            if (other.starts_with("strings[")) { other[8] = static_cast<char>('0' + 4 - (other[8] - '0')); }
            if (other.starts_with("bass_relief")) {
                other.replace(0, 4, "treble");
            } else if (other.starts_with("treble_relief")) {
                other.replace(0, 6, "bass");
            }
            const bool across = other.ends_with("_y") || other.ends_with(".y") ||
                                other.find("y_at_") != std::string::npos || other.find("side_angle") != std::string::npos ||
                                other.ends_with("slant");
            CAPTURE(path);
            REQUIRE(b.count(other) == 1);
            CHECK(std::abs(x - (across ? -1 : 1) * b.at(other)) <= 1e-9 * std::abs(x) + 1e-11);
        }
    }
    TEST_CASE("crossings are those of two lines through points, and strings of one share have true frets by length") {
        const auto s = solve(fanned_bass());
        // Outer strings in plan: from where the fret in the middle of both is square, lengths by Pythagoras.
        const double run_b = std::sqrt(890. * 890 - 16 * 16), run_t = std::sqrt(840. * 840 - 16 * 16);
        const double gone = 1 - std::exp2(-7 / 12.0);
        // Nut's line: -19 -> xb, 19 -> xt, both at the square fret's x, the middle at 0.
        const double lead = (run_b - run_t) * gone, xb = -lead / 2, xt = lead / 2;
        CHECK(near::within(xb + run_b * gone, xt + run_t * gone, 1e-9));
        for (std::size_t n = 1; n <= 20; ++n) {
            const double share = 1 - std::exp2(-double(n) / 12);
            const double bx = xb + run_b * share, by = -19 - 16 * share, tx = xt + run_t * share, ty = 19 + 16 * share;
            CHECK(near::within(s.fret_x[n - 1] / mm, bx + (tx - bx) * (0 - by) / (ty - by), 1e-9));
            for (std::size_t i = 0; i < 5; ++i) {
                const auto& l = s.strings[i].line;
                const double x1 = l.nut_x / mm, y1 = l.nut_y / mm, x2 = l.saddle_x / mm, y2 = l.saddle_y / mm;
                // Two lines by determinants.
                const double p = x1 * y2 - y1 * x2, q = bx * ty - by * tx;
                const double d = (x1 - x2) * (by - ty) - (y1 - y2) * (bx - tx);
                CHECK(near::within(s.strings[i].crest_x[n - 1] / mm, (p * (bx - tx) - (x1 - x2) * q) / d, 1e-9));
            }
        }
        for (std::size_t i = 0; i < 5; ++i) {
            const auto& one = s.strings[i];
            const double y = -19 + 9.5 * double(i), ys = -35 + 17.5 * double(i), t = double(i) / 4;
            CHECK(near::within(one.line.nut_x / mm, xb + (xt - xb) * t, 1e-9));
            CHECK(near::within(one.y_at_nut / mm, y, 1e-9));
            CHECK(near::within(one.line.saddle_x / mm, xb + run_b + (xt + run_t - xb - run_b) * t + 10 - 1.8 * double(i),
                               1e-9));
            CHECK(near::within(one.y_at_saddle / mm, ys, 1e-9));
        }
        // Without setbacks every string divides as its own scale does: all stand at one share at nut and saddle.
        auto bare = fanned_bass();
        for (auto& one : bare.instrument.saddle.single) { one.setback = 0 * mm; }
        for (const auto& one : solve(bare).strings) {
            for (std::size_t n = 1; n <= 20; ++n) {
                const double left = (one.line.saddle_x - one.crest_x[n - 1]) / (one.line.saddle_x - one.line.nut_x);
                CHECK(near::within(left, std::exp2(-double(n) / 12), 1e-12));
            }
        }
    }
    TEST_CASE("two strings of a fanned bass by hand: scale, tension, height, clearance") {
        auto on = fanned_bass();
        // A neck that hardly bows, so that geometry is all.
        on.instrument.neck.board_modulus = on.instrument.neck.back_modulus = 1000 * GPa;
        on.instrument.neck.rod_pull = 0 * N;
        const auto s = solve(on);
        REQUIRE(abs(s.nut_rise) < 0.1 * mm);
        const auto bow = [&](double x) { return deflection_at(s.bow, x * mm) / mm; };
        const auto arc = [](double y) { return 300 - std::sqrt(300.0 * 300 - y * y); };
        struct by_hand {
            std::size_t string;
            double nut_x, nut_y, saddle_x, saddle_y, slot, saddle_z, x12, y12, x15, y15, x5, y5;
        };
        // From run 889.85617 and 839.84760 mm, lead of the nut's line 16.63185 mm; frets 5, 12 and 15 leave 0.749154, 0.5
        // and 0.420448 of both outer strings.
        //   B0 (outermost bass):  nut (-8.31593, -19), line of the saddles at 881.54024, own saddle 10 mm behind it
        //   G2 (outermost treble): nut (8.31593, 19), line of the saddles at 848.16353, own saddle 2.8 mm behind it
        // The outer lines lie on the strings but for the setback, which turns them by a hundredth of a degree.
        const by_hand rows[] = {
            {0, -8.31593, -19, 891.54024, -35, 1.8, 11.4 - 7.5, 436.59, -26.91, 507.40, -28.17, 214.88, -22.97},
            {4, 8.31593, 19, 850.96353, 35, 1.6, 10.8 - 7.5, 428.26, 26.97, 495.07, 28.24, 218.99, 23.00},
        };
        for (const auto& r : rows) {
            const auto& one = s.strings[r.string];
            CAPTURE(r.string);
            CHECK(near::within(one.line.nut_x / mm, r.nut_x, 2e-4));
            CHECK(near::within(one.line.saddle_x / mm, r.saddle_x, 2e-4));
            CHECK(near::within(one.crest_x[11] / mm, r.x12, 0.03));
            const double nut_z = r.slot - arc(r.nut_y), risen = nut_z + bow(r.nut_x);
            const double length = std::hypot(r.saddle_x - r.nut_x, r.saddle_y - r.nut_y, r.saddle_z - nut_z);
            CHECK(near::within(one.speaking_length / mm, length, 2e-3));
            const double mass = one.mass_per_length.value();
            const double f = r.string == 0 ? 30.8677 : 97.9989;
            CHECK(near::relative(one.tension / N, mass * std::pow(2 * length * 1e-3 * f, 2), 1e-4));
            const auto crest = [&](double y) { return 1.1 - arc(y); };
            const double at12 =
                risen + (r.saddle_z - risen) * (r.x12 - r.nut_x) / (r.saddle_x - r.nut_x) - crest(r.y12) - bow(r.x12);
            CHECK(near::within(one.heights[11] / mm, at12, 0.002));
            // Pressed at 5, over fret 15.
            const double stop = crest(r.y5) + bow(r.x5);
            const double run = stop + (r.saddle_z - stop) * (r.x15 - r.x5) / (r.saddle_x - r.x5);
            const auto gap = kernel::line_height<double>(one.crest_x[4], one.crest_z[4], one.line.saddle_x,
                                                         one.line.saddle_z, one.crest_x[14]) -
                             one.crest_z[14];
            CHECK(near::within(gap / mm, run - crest(r.y15) - bow(r.x15), 0.002));
            CHECK(one.clearances[5].gap <= gap + 1e-12 * mm);
        }
    }
    TEST_CASE("relief: each outer string over its own crests, the centre over the centre's") {
        const auto s = solve(fanned_bass());
        REQUIRE(s.bass_relief.has_value());
        REQUIRE(s.treble_relief.has_value());
        for (const auto& [string, told] :
             {std::pair(std::size_t(0), *s.bass_relief), std::pair(std::size_t(4), *s.treble_relief)}) {
            const auto& one = s.strings[string];
            double most = 0;
            for (std::size_t n = 1; n < 15; ++n) {
                const double t = (one.crest_x[n] - one.crest_x[0]) / (one.crest_x[15] - one.crest_x[0]);
                const double gap = ((one.crest_z[0] + (one.crest_z[15] - one.crest_z[0]) * t) - one.crest_z[n]) / mm;
                most = std::abs(gap) > std::abs(most) ? gap : most;
            }
            CHECK(near::within(told.gap / mm, most, 1e-9));
        }
        // The bass line reaches further over the bow.
        CHECK(s.bass_relief->gap > 1.02 * s.treble_relief->gap);
        CHECK(s.bass_relief->gap < 1.4 * s.treble_relief->gap);
        CHECK_FALSE(solve(demo::strung()).bass_relief.has_value());
    }
    TEST_CASE("the neck stands still: moments of the lines as they lie bend it as it is bent") {
        const auto on = fanned_bass();
        const auto s = solve(on);
        // Free body: what each string's axis, in its loaded place, pulls with about the neutral axis in its loaded place.
        const auto told = bending_along(s.beam, s.pulls, on.instrument.neck.pull_of_rod(), nut_kind::slanted);
        std::size_t looked = 0;
        for (std::size_t k = 0; k + 1 < told.size(); ++k) {
            const auto& here = told[k];
            if (told[k + 1].x == here.x) { continue; } // something ends there
            double m = 0;
            for (const auto& one : s.strings) {
                const double half = one.gauge.value() / 2;
                const double a = one.line.nut_z.value() + half, b = one.line.saddle_z.value() + half;
                const double xn = one.line.nut_x.value(), xs = one.line.saddle_x.value();
                const double z = a + (b - a) * (here.x.value() - xn) / (xs - xn);
                m += one.tension.value() * (xs - xn) / one.speaking_length.value() * z;
            }
            for (const auto& step : s.beam.steps) {
                if (step.x != here.x) { continue; }
                const auto& p = s.beam.at(step, 0);
                const double na = p.neutral_axis.value() + deflection_at(s.bow, here.x).value();
                double pull = 0;
                for (const auto& one : s.pulls) { pull += one.pull.value(); }
                const double rod =
                    step.rod_acts ? on.instrument.neck.rod_pull->value() * (p.neutral_axis.value() - p.rod_height.value())
                                  : 0;
                CHECK(near::within(here.moment.value(), m - pull * na - rod, 1e-9 * std::abs(m)));
                ++looked;
                break;
            }
        }
        CHECK(looked > 20);
        for (const auto& one : s.strings) {
            const auto all_forces =
                one.at_nut.on_support + one.at_nut.on_anchor + one.at_saddle.on_support + one.at_saddle.on_anchor;
            CHECK(all_forces.size() < 1e-9 * one.tension);
            CHECK(one.at_saddle.down() > 1 * N);
        }
    }
    TEST_CASE("derivatives, packs and floats") {
        using D = dual<double, 1>;
        const auto on = fanned_bass();
        for (int which = 0; which < 2; ++which) {
            auto seeded = over<D>(on);
            auto& fan = *seeded.instrument.board.scale.fan;
            if (which == 0) { fan.treble_scale = length<D>::from_value(D::variable(fan.treble_scale.value().value, 0)); }
            if (which == 1) { fan.square_fret = D::variable(fan.square_fret.value, 0); }
            const auto s = solve(seeded);
            const double h = which == 0 ? 1e-6 : 1e-2;
            const auto moved = [&](double by) {
                auto other = on;
                auto& f = *other.instrument.board.scale.fan;
                if (which == 0) { f.treble_scale = f.treble_scale + by * metre; }
                if (which == 1) { f.square_fret += by; }
                return solve(other);
            };
            const auto up = moved(h), down = moved(-h);
            const auto holds = [&](const D& d, double a, double b, double within = 1e-9) {
                CHECK(near::within(d.partial[0], (a - b) / (2 * h), 1e-4 * std::abs(d.partial[0]) + within));
            };
            holds(s.relief->gap.value(), up.relief->gap.value(), down.relief->gap.value());
            holds(s.nut_rise.value(), up.nut_rise.value(), down.nut_rise.value());
            for (std::size_t i = 0; i < 5; ++i) {
                holds(s.strings[i].heights[11].value(), up.strings[i].heights[11].value(),
                      down.strings[i].heights[11].value());
                holds(s.strings[i].notes[11].error.cents(), up.strings[i].notes[11].error.cents(),
                      down.strings[i].notes[11].error.cents(), 1e-4);
                holds(s.strings[i].crest_x[4].value(), up.strings[i].crest_x[4].value(),
                      down.strings[i].crest_x[4].value());
            }
        }
        using P = pack<double>;
        auto packed = over<P>(on);
        P treble = packed.instrument.board.scale.fan->treble_scale.value();
        for (std::size_t k = 0; k < lanes_of<P>::count; ++k) { lanes_of<P>::set(treble, k, 0.84 + 0.002 * double(k)); }
        packed.instrument.board.scale.fan->treble_scale = length<P>::from_value(treble);
        const auto s = solve(packed);
        for (std::size_t k = 0; k < lanes_of<P>::count; ++k) {
            auto one = on;
            one.instrument.board.scale.fan->treble_scale = (840 + 2 * double(k)) * mm;
            const auto alone = solve(one);
            for (std::size_t i = 0; i < 5; ++i) {
                for (std::size_t n = 0; n < 20; ++n) {
                    CHECK(near::within(lanes_of<P>::get(s.strings[i].heights[n].value(), k),
                                       alone.strings[i].heights[n].value(), 1e-12));
                }
            }
            CHECK(near::within(lanes_of<P>::get(s.treble_relief->gap.value(), k), alone.treble_relief->gap.value(), 1e-12));
        }
        const auto rough = solve(over<float>(on));
        const auto fine = solve(on);
        CHECK(near::within(double(rough.strings[2].heights[11].value()), fine.strings[2].heights[11].value(), 2e-6));
    }
    TEST_CASE("a giving top, a zero fret, one straight saddle: each with a fan") {
        auto flat = string_up(ready_made::flat_top());
        const double none = solve(fan_of_none(flat)).strings[0].heights[11] / mm;
        flat = fan_of_none(flat);
        flat.instrument.soundboard = soundboard{.sink_stiffness = 400 * N_per_mm,
                                                .turn_stiffness = 3000 * N_m_per_rad,
                                                .saddle_ahead = 5 * mm,
                                                .saddle_height = 20 * mm};
        flat.instrument.board.scale.fan->bass_scale = flat.instrument.board.scale.fan->bass_scale + 12 * mm;
        flat.instrument.board.scale.fan->square_fret = 5;
        flat.instrument.board.scale.zero_fret = true;
        const auto s = solve(flat);
        REQUIRE(s.top.has_value());
        CHECK(near::within(s.strings[0].heights[11] / mm, none, 1.5));
        // The string lies on the crown of the zero fret, risen with the neck under it.
        for (const auto& one : s.strings) {
            const auto board = kernel::surface_height<double>(flat.instrument.board.surface, one.line.nut_x, one.y_at_nut);
            const auto crown = kernel::crown_left(flat.instrument.frets, 0);
            CHECK(near::within(one.line.nut_z - board - crown, deflection_at(s.bow, one.line.nut_x), 1e-12 * mm));
        }
        CHECK(s.straight_saddle.has_value());
    }
    TEST_CASE("edges that are bowed alike are one set; a treble edge that is higher lifts what lies over it") {
        auto on = fanned_bass();
        on.instrument.neck.set = {
            {.x = 0 * mm, .z = 0.2 * mm}, {.x = 250 * mm, .z = -0.1 * mm}, {.x = 530 * mm, .z = 0 * mm}};
        const auto centre = solve(on);
        on.instrument.neck.set_bass = on.instrument.neck.set_treble = on.instrument.neck.set;
        on.instrument.neck.set.clear();
        const auto edges = solve(on);
        on.instrument.neck.set_treble[1].z = 0.3 * mm;
        const auto twisted = solve(on);
        for (std::size_t i = 0; i < 5; ++i) {
            for (std::size_t n = 0; n < 20; ++n) {
                CHECK(near::within(edges.strings[i].heights[n], centre.strings[i].heights[n], 1e-9 * mm));
            }
        }
        CHECK(twisted.treble_relief->gap < edges.treble_relief->gap - 0.15 * mm);
        CHECK(twisted.bass_relief->gap > twisted.treble_relief->gap + 0.15 * mm);
    }
    TEST_CASE("bad fans are told") {
        auto on = fanned_bass();
        on.instrument.board.scale.fan->square_fret = 21;
        CHECK(fan_said(on).find("board.scale.fan.square_fret must be on the board: 0, the nut, to 20, the last fret") !=
              std::string::npos);
        on = fanned_bass();
        on.instrument.board.scale.divisor = 18.0;
        on.instrument.board.scale.measured_places = {30 * mm};
        CHECK(fan_said(on) == "board.scale.divisor must be left out on a board of two scales.\n"
                              "board.scale.measured_places must be left out on a board of two scales.");
        on = fanned_bass();
        on.instrument.board.scale.fan->bass_scale = length<>::from_value(std::nan(""));
        CHECK(fan_said(on).starts_with("board.scale.fan.bass_scale is not given"));
        on = fanned_bass();
        on.instrument.board.scale.fan->treble_scale = 12 * mm;
        CHECK(fan_said(on).find("board.scale.fan must be scales that are longer than their strings run sideways") !=
              std::string::npos);
        on = fanned_bass();
        on.instrument.board.scale.fan->treble_scale = 300 * mm;
        on.instrument.board.scale.fan->square_fret = 0;
        on.instrument.board.width_at_end = 300 * mm;
        on.instrument.board.surface = flat_surface();
        CHECK(fan_said(on).find("board.scale.fan must be scales whose frets do not cross on the board") !=
              std::string::npos);
        on = fanned_bass();
        on.instrument.board.board_length = 500 * mm;
        CHECK(fan_said(on).find("board.board_length must reach the last fret") != std::string::npos);
        on = fanned_bass();
        on.instrument.headstock.face_start = 0 * mm;
        on.instrument.posts[2].along = 4 * mm;
        CHECK(fan_said(on).find("posts[2].along must be more: the post would stand beside the slanted nut") !=
              std::string::npos);
        auto single = string_up(ready_made::solid_body_bass());
        single.instrument.board.scale.fan = two_scales{.bass_scale = 870 * mm, .treble_scale = 850 * mm, .square_fret = 5};
        single.instrument.nut.spacing.courses = single.instrument.saddle.spacing.courses = {4};
        single.instrument.nut.spacing.course_gap = single.instrument.saddle.spacing.course_gap = 9 * mm;
        CHECK(fan_said(single).find("board.scale.fan must be left out where there are not two courses") !=
              std::string::npos);
    }
    TEST_CASE("what is told of square frets only is refused on a fan") {
        const auto on = fanned_bass();
        const auto said = [](auto&& f) {
            try {
                f();
            } catch (const invalid_input& e) { return std::string(e.what()); }
            return std::string("nothing");
        };
        CHECK(said([&] {
                  (void)fret_position(on.instrument.board.scale, 3);
              }).starts_with("scale.fan must be left out here"));
        CHECK(said([&] { (void)after_reset<double>(on, {.turn = 0.3 * deg}); }) == "nothing");
        bench_work work;
        work.strings = on.stringing;
        CHECK(said([&] { (void)do_work<double>(on, {}, work); }) == "nothing");
    }
}
