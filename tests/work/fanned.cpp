// Work on an instrument of fanned frets: new wire, the file, a new arc, and a neck that is reset about its joint.
#include <tautline/work/do_work.hpp>
#include <tautline/work/reset.hpp>

#include <algorithm>
#include <cmath>
#include <complex>

#include "near.hpp"
#include "setup/demo.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// A bass of two scales on single saddles.
strung_instrument fanned_for_work(double bass = 880, double treble = 845, double square = 7) {
    auto o = ready_made::solid_body_bass();
    auto& i = o.instrument;
    i.board.board_length = 625 * mm;
    i.board.scale.fan = two_scales{.bass_scale = bass * mm, .treble_scale = treble * mm, .square_fret = square};
    std::vector<single_saddle> each;
    for (int k = 0; k < 4; ++k) {
        each.push_back({.height = (11.2 - 0.2 * k) * mm, .setback = (6 - k) * mm, .most_setback = 20 * mm});
    }
    i.saddle = single_saddles(i.saddle.spacing, each, i.saddle.board_line);
    return string_up(o);
}
/// The same with one top for all strings.
strung_instrument fanned_on_one_top() {
    auto on = fanned_for_work();
    on.instrument.saddle = ready_made::solid_body_bass().instrument.saddle;
    return on;
}
strung_instrument mirrored_for_work(strung_instrument on) {
    auto& i = on.instrument;
    std::swap(i.board.scale.fan->bass_scale, i.board.scale.fan->treble_scale);
    std::reverse(on.stringing.strings.begin(), on.stringing.strings.end());
    std::reverse(i.posts.begin(), i.posts.end());
    for (auto& p : i.posts) { p.across = -p.across; }
    std::reverse(i.nut.slot_heights.begin(), i.nut.slot_heights.end());
    std::reverse(i.saddle.single.begin(), i.saddle.single.end());
    return on;
}
using from_the_side = std::complex<double>; // millimetres

/// Places on a fan by plane geometry alone: outer strings of these scales, square at fret 7, the nut's middle at 0.
struct plain_fan {
    double bass_nut{}, treble_nut{}, bass_saddle{}, treble_saddle{}, y_nut{}, y_saddle{};
    explicit plain_fan(const instrument& i) {
        y_nut = i.nut.spacing.spread / mm / 2;
        y_saddle = i.saddle.spacing.spread / mm / 2;
        const double bass = i.board.scale.fan->bass_scale / mm, treble = i.board.scale.fan->treble_scale / mm;
        const double run_b = std::sqrt(bass * bass - std::pow(y_saddle - y_nut, 2)),
                     run_t = std::sqrt(treble * treble - std::pow(y_saddle - y_nut, 2));
        const double lead = (run_b - run_t) * (1 - std::exp2(-i.board.scale.fan->square_fret / 12.0));
        bass_nut = -lead / 2;
        treble_nut = lead / 2;
        bass_saddle = bass_nut + run_b;
        treble_saddle = treble_nut + run_t;
    }
    double saddle_at(double y) const {
        return bass_saddle + (treble_saddle - bass_saddle) * (y + y_saddle) / (2 * y_saddle);
    }
    double nut_at(double y) const { return bass_nut + (treble_nut - bass_nut) * (y + y_nut) / (2 * y_nut); }
    /// Where a fret meets the board's edge, along.
    double end_of(const instrument& i, int fret, bool treble) const {
        const double gone = 1 - std::exp2(-fret / 12.0);
        const double b = bass_nut + (bass_saddle - bass_nut) * gone, t = treble_nut + (treble_saddle - treble_nut) * gone,
                     y = y_nut + (y_saddle - y_nut) * gone; // both outer strings lie alike
        const double lean = (t - b) / (2 * y), side = treble ? 1 : -1;
        double x = (b + t) / 2;
        for (int k = 0; k < 60; ++k) {
            x = (b + t) / 2 + lean * side * (kernel::half_width_at<double>(i.board, x * mm) / mm);
        }
        return x;
    }
    double joint(const instrument& i) const {
        const double gone = 1 - std::exp2(-i.neck.joint_fret / 12.0);
        const double b = bass_nut + (bass_saddle - bass_nut) * gone, t = treble_nut + (treble_saddle - treble_nut) * gone;
        return (b + t) / 2; // the outer strings lie alike on both sides
    }
};

} // namespace

TEST_SUITE("work on fanned frets") {
    TEST_CASE("a reset takes each single saddle where the turn takes it, at its own place along") {
        const auto on = fanned_for_work();
        const plain_fan fan(on.instrument);
        const auto s = solve(on);
        const from_the_side edge(fan.joint(on.instrument), -(on.instrument.board.thickness / mm));
        for (const double t : {-6e-3, 9e-3}) {
            const auto after = after_reset(on, {.turn = t * rad, .leave = 0.4 * mm}).instrument;
            for (std::size_t k = 0; k < 4; ++k) {
                const auto &was = on.instrument.saddle.single[k], &is = after.saddle.single[k];
                const double line = fan.saddle_at(s.strings[k].y_at_saddle / mm);
                const from_the_side from(line + was.setback / mm, (was.height - on.instrument.saddle.board_line) / mm),
                    to(line + is.setback / mm, (is.height - after.saddle.board_line) / mm),
                    there = edge + (from - 0.4 - edge) * std::polar(1.0, -t);
                CHECK(std::abs(to - there) < 1e-9);
                CHECK(near::within(is.most_setback->value() - was.most_setback->value(),
                                   is.setback.value() - was.setback.value(), 1e-15));
            }
            CHECK(after.board.scale.fan->bass_scale == on.instrument.board.scale.fan->bass_scale);
        }
    }
    TEST_CASE("a reset of one top lays both its ends at their own places") {
        const auto on = fanned_on_one_top();
        const plain_fan fan(on.instrument);
        const from_the_side edge(fan.joint(on.instrument), -(on.instrument.board.thickness / mm));
        const auto after = after_reset(on, {.turn = 8e-3 * rad}).instrument;
        const auto there = [&](double line, const length<>& back, const length<>& over) {
            const from_the_side p(line + back / mm, (over - on.instrument.saddle.board_line) / mm);
            return edge + (p - edge) * std::polar(1.0, -8e-3);
        };
        const auto &was = on.instrument.saddle, &is = after.saddle;
        CHECK(std::abs(there(fan.bass_saddle, was.setback_bass, was.height_bass) -
                       from_the_side(fan.bass_saddle + is.setback_bass / mm, (is.height_bass - is.board_line) / mm)) <
              1e-9);
        CHECK(std::abs(there(fan.treble_saddle, was.setback_treble, was.height_treble) -
                       from_the_side(fan.treble_saddle + is.setback_treble / mm, (is.height_treble - is.board_line) / mm)) <
              1e-9);
    }
    TEST_CASE("solved, a stiff neck's strings stand over their own crests as the turn says") {
        auto on = fanned_for_work();
        on.instrument.neck.board_modulus = on.instrument.neck.back_modulus = 900 * GPa;
        const auto before = solve(on);
        const auto after = solve(after_reset(on, {.turn = 5e-3 * rad, .leave = 0.3 * mm}));
        for (std::size_t k = 0; k < 4; ++k) {
            const auto& one = before.strings[k];
            const reset_case c{
                {.x = joint_place(on.instrument), .z = -length<>(on.instrument.board.thickness), .leave = 0.3 * mm},
                one.line,
                one.crest_x[11],
                one.crest_z[11]};
            CHECK(near::within(after.strings[k].heights[11], action_after_turn(c, 5e-3 * rad), 1e-3 * mm));
        }
    }
    TEST_CASE("a fan of a micrometre is reset as a square board, a mirrored one as its mirror") {
        auto plain = fanned_on_one_top();
        plain.instrument.board.scale.fan.reset();
        auto fan = plain;
        const auto& i = plain.instrument;
        const double side = (i.saddle.spacing.spread - i.nut.spacing.spread) / mm / 2;
        const auto along = std::hypot(i.board.scale.scale_length / mm, side);
        fan.instrument.board.scale.fan =
            two_scales{.bass_scale = (along + 1e-3) * mm, .treble_scale = along * mm, .square_fret = 0};
        const reset by{.turn = 7e-3 * rad, .leave = 0.2 * mm};
        const auto a = after_reset(plain, by).instrument, b = after_reset(fan, by).instrument;
        CHECK(near::within(a.saddle.board_line, length<>(b.saddle.board_line), 1e-4 * mm));
        CHECK(near::within(a.saddle.height_bass, length<>(b.saddle.height_bass), 1e-4 * mm));
        CHECK(near::within(a.saddle.setback_treble, length<>(b.saddle.setback_treble), 1e-4 * mm));
        CHECK(near::within(a.body_bridge->height, length<>(b.body_bridge->height), 1e-4 * mm));

        const auto on = fanned_for_work();
        const auto left = after_reset(on, by).instrument, right = after_reset(mirrored_for_work(on), by).instrument;
        CHECK(near::within(left.saddle.board_line, length<>(right.saddle.board_line), 1e-9 * mm));
        for (std::size_t k = 0; k < 4; ++k) {
            CHECK(near::within(left.saddle.single[k].height, length<>(right.saddle.single[3 - k].height), 1e-9 * mm));
            CHECK(near::within(left.saddle.single[k].setback, length<>(right.saddle.single[3 - k].setback), 1e-9 * mm));
        }
    }
    TEST_CASE("new wire raises every crest under every string by what its crown is higher") {
        auto on = fanned_for_work();
        on.instrument.frets.wear = {0.1 * mm, 0.12 * mm};
        const fret_wire wire{
            .crown_height = 1.35 * mm, .crown_width = 2.4 * mm, .tang_depth = 1.5 * mm, .tang_thickness = 0.5 * mm};
        const auto done = do_work(on, {}, {.wire = wire});
        CHECK(done.new_frets);
        CHECK(done.after.instrument.frets.wear.empty());
        const auto before = solve(on), after = solve(done.after);
        for (std::size_t k = 0; k < 4; ++k) {
            for (std::size_t n = 0; n < before.fret_x.size(); ++n) {
                const auto rise =
                    length<>(wire.crown_height) - kernel::crown_left(on.instrument.frets, static_cast<int>(n) + 1);
                CHECK(near::within(after.strings[k].crest_z[n] - before.strings[k].crest_z[n], rise, 1e-12 * mm));
                CHECK(near::within(before.strings[k].heights[n] - after.strings[k].heights[n], rise, 1e-12 * mm));
            }
        }
    }
    TEST_CASE("filed slack, the crests lie on a straight line along each edge, and two of them are not cut") {
        auto on = fanned_for_work();
        on.instrument.frets.wear.clear();
        for (int n = 0; n < 20; ++n) { on.instrument.frets.wear.push_back((0.02 + 0.03 * ((n * 7) % 5) / 4.0) * mm); }
        on.instrument.neck.set = {
            {.x = 0 * mm, .z = 0.25 * mm}, {.x = 200 * mm, .z = 0.05 * mm}, {.x = 500 * mm, .z = 0 * mm}};
        const auto done = do_work(on, {}, {.levelling = fret_levelling{.held = neck_held::slack}});
        const auto& after = done.after.instrument;
        CHECK(after.frets.wear.empty());
        const plain_fan fan(on.instrument);
        for (const bool treble : {false, true}) {
            std::vector<double> x, z;
            int untouched = 0;
            for (int n = 1; n <= on.instrument.board.scale.frets; ++n) {
                const auto at = fan.end_of(on.instrument, n, treble);
                const auto& worn = treble ? after.frets.wear_treble : after.frets.wear_bass;
                const auto k = static_cast<std::size_t>(n - 1);
                x.push_back(at);
                z.push_back(kernel::profile_height<double>(on.instrument.neck.set, at * mm) / mm - worn[k] / mm);
                const double before = k < on.instrument.frets.wear.size() ? on.instrument.frets.wear[k] / mm : 0.0;
                CHECK(worn[k] / mm >= before - 1e-12);
                untouched += worn[k] / mm - before < 1e-7 ? 1 : 0;
            }
            CHECK(untouched >= 2);
            const double slope = (z.back() - z.front()) / (x.back() - x.front());
            for (std::size_t k = 0; k < x.size(); ++k) { CHECK(near::within(z[k], z[0] + slope * (x[k] - x[0]), 1e-7)); }
        }
        // Both ends differ: the board's hollow is met at other places along.
        CHECK(tautline::abs(length<>(after.frets.wear_bass[3] - after.frets.wear_treble[3])) > 1e-4 * mm);
        CHECK(done.levelling->way().cuts[3] ==
              (done.levelling->way().bass_cuts[3] + done.levelling->way().treble_cuts[3]) / 2.0);
    }
    TEST_CASE("filed in a jig as it will be, the crests have the wanted hollow along each edge at pitch") {
        auto on = fanned_for_work();
        const auto done =
            do_work(on, {}, {.levelling = fret_levelling{.held = neck_held::as_it_will_be, .hollow = 0.1 * mm}});
        const auto& after = done.after.instrument;
        const auto s = solve(done.after);
        const plain_fan fan(on.instrument);
        for (const bool treble : {false, true}) {
            const auto& worn = treble ? after.frets.wear_treble : after.frets.wear_bass;
            const int joint = after.neck.joint_fret;
            const auto crest = [&](int n) {
                const double x = fan.end_of(after, n, treble);
                return std::pair(x, deflection_at<double>(s.bow, x * mm) / mm - worn[static_cast<std::size_t>(n - 1)] / mm);
            };
            const auto first = crest(1), last = crest(joint);
            for (int n = 1; n <= joint; ++n) {
                const auto here = crest(n);
                const double t = (here.first - first.first) / (last.first - first.first);
                CHECK(near::within(here.second, first.second + t * (last.second - first.second) - 0.1 * 4 * t * (1 - t),
                                   1e-5));
            }
        }
        CHECK(near::within(s.relief->gap, 0.1 * mm, 1e-3 * mm));
    }
    TEST_CASE("a fan of a micrometre is filed and sanded as a square board, a mirrored one as its mirror") {
        auto plain = fanned_on_one_top();
        auto& i = plain.instrument;
        i.board.scale.fan.reset();
        i.board.width_at_end = i.board.width_at_nut;
        i.board.thickness = 8 * mm;
        i.neck.set = {{.x = 0 * mm, .z = 0.2 * mm}, {.x = 250 * mm, .z = 0.02 * mm}, {.x = 500 * mm, .z = 0 * mm}};
        auto fan = plain;
        const double side = (i.saddle.spacing.spread - i.nut.spacing.spread) / mm / 2;
        const auto along = std::hypot(i.board.scale.scale_length / mm, side);
        fan.instrument.board.scale.fan =
            two_scales{.bass_scale = (along + 1e-3) * mm, .treble_scale = along * mm, .square_fret = 0};
        bench_work file{.levelling = fret_levelling{.held = neck_held::slack, .hollow = 0.05 * mm}};
        const auto a = do_work(plain, {}, file), b = do_work(fan, {}, file);
        for (std::size_t n = 0; n < a.levelling->way().cuts.size(); ++n) {
            CHECK(near::within(a.levelling->way().cuts[n], b.levelling->way().bass_cuts[n], 1e-4 * mm));
            CHECK(near::within(a.levelling->way().cuts[n], b.levelling->way().treble_cuts[n], 1e-4 * mm));
        }
        board_details details;
        details.slot = slot{.depth = 2 * mm, .width = 0.6 * mm};
        bench_work sand;
        sand.sanding = sanding{.surface = cylinder(400 * mm), .held = neck_held::as_at_pitch, .allowance = 0.1 * mm};
        const auto c = do_work(plain, details, sand), d = do_work(fan, details, sand);
        const auto one = numbers_of(c), other = numbers_of(d);
        CHECK(near::within(*one.off_centre_at_nut, *other.off_centre_at_nut, 1e-4 * mm));
        CHECK(near::within(*one.off_centre_at_end, *other.off_centre_at_end, 1e-4 * mm));
        CHECK(near::within(*one.slot_to_deepen, *other.slot_to_deepen, 1e-4 * mm));
        CHECK_FALSE(one.slot_bass_left.has_value());
        CHECK(near::within(*other.slot_bass_left, *other.slot_treble_left, 1e-4 * mm));
        CHECK(near::within(c.after.instrument.saddle.height_bass, length<>(d.after.instrument.saddle.height_bass),
                           1e-4 * mm));

        const auto on = fanned_for_work();
        const auto left = do_work(on, details, file), right = do_work(mirrored_for_work(on), details, file);
        for (std::size_t n = 0; n < left.levelling->way().cuts.size(); ++n) {
            CHECK(near::within(left.levelling->way().bass_cuts[n], right.levelling->way().treble_cuts[n], 1e-6 * mm));
        }
        const auto l = numbers_of(do_work(on, details, sand)),
                   r = numbers_of(do_work(mirrored_for_work(on), details, sand));
        CHECK(near::within(*l.off_centre_at_nut, *r.off_centre_at_nut, 1e-9 * mm));
        CHECK(near::within(*l.slot_bass_left, *r.slot_treble_left, 1e-9 * mm));
    }
    TEST_CASE("sanded in a jig as it will be, a fan's board is straight at pitch; what was not touched is where it was") {
        auto on = fanned_for_work();
        on.instrument.board.surface = cylinder(240 * mm);
        on.instrument.neck.set = {
            {.x = 0 * mm, .z = 0.3 * mm}, {.x = 250 * mm, .z = 0.1 * mm}, {.x = 520 * mm, .z = 0 * mm}};
        board_details details;
        details.slot = slot{.depth = 2.2 * mm, .width = 0.6 * mm};
        bench_work sand;
        sand.sanding = sanding{.surface = cylinder(350 * mm), .held = neck_held::as_it_will_be, .allowance = 0.05 * mm};
        const auto done = do_work(on, details, sand);
        const auto s = solve(done.after);
        for (std::size_t n = 0; n < static_cast<std::size_t>(on.instrument.neck.joint_fret); ++n) {
            CHECK(near::within(s.board_points[n].z, 0 * mm, 1e-6 * mm));
        }
        const plain_fan fan(on.instrument);
        const auto& off = *done.removal;
        const auto drop = [](double radius, double y) { return radius - std::sqrt(radius * radius - y * y); };
        double least = 1;
        for (double x = fan.end_of(on.instrument, 0, false); x <= 625; x += 5) {
            const double half = kernel::half_width_at<double>(on.instrument.board, x * mm) / mm;
            for (const double share : {-1.0, -0.4, 0.0, 1.0}) {
                // On a fan the nut begins the board elsewhere on each side.
                if (x < fan.nut_at(half * share)) { continue; }
                const double here = removal_at<double>(off, x * mm, half * share * mm) / mm;
                const double centre = removal_at<double>(off, x * mm, 0 * mm) / mm;
                CHECK(near::within(here - centre, drop(350, half * share) - drop(240, half * share), 1e-9));
                least = std::min(least, here);
            }
        }
        CHECK(least > 0.05 - 0.002);
        CHECK(least < 0.05 + 0.03);
        // Slots, saddles: in the frame of the new line all of it stands higher by what the line went down there.
        const auto line = [&](double x) { return kernel::line_removal<double>(off, x * mm) / mm; };
        const auto before = solve(on);
        for (std::size_t k = 0; k < 4; ++k) {
            // What a setback makes of the new line's slope is left out.
            const double x_s = fan.saddle_at(before.strings[k].y_at_saddle / mm);
            const auto &was = on.instrument.saddle, &is = done.after.instrument.saddle;
            CHECK(near::within((is.single[k].height - is.board_line) / mm,
                               (was.single[k].height - was.board_line) / mm + line(x_s), 1e-9));
            const double x_n = before.strings[k].line.nut_x / mm, y = before.strings[k].y_at_nut / mm;
            const auto set = [](const instrument& i, double x) {
                return kernel::profile_height<double>(i.neck.set, x * mm) / mm;
            };
            const double found = on.instrument.nut.slot_height(k) / mm + set(on.instrument, x_n) - drop(240, y);
            const double left =
                done.after.instrument.nut.slot_height(k) / mm + set(done.after.instrument, x_n) - drop(350, y);
            CHECK(near::within(left, found + line(x_n), 1e-9));
        }
        // Slots along their lines, by their own geometry.
        for (const auto& row : done.sanding->rows) {
            REQUIRE(row.ends.has_value());
            const double x = fan.end_of(on.instrument, row.fret, true);
            const double half = kernel::half_width_at<double>(on.instrument.board, x * mm) / mm;
            const double gone = removal_at<double>(off, x * mm, half * mm) / mm;
            CHECK(near::within(row.ends->off_treble / mm, gone, 1e-6));
            CHECK(near::within(row.ends->slot_treble / mm, 2.2 - gone, 1e-6));
            CHECK(near::within(row.ends->left_treble / mm, on.instrument.board.thickness / mm - drop(240, half) - gone,
                               1e-6));
            CHECK(row.slot_left <= min(row.ends->slot_bass, min(row.ends->slot_middle, row.ends->slot_treble)));
        }
    }
}
