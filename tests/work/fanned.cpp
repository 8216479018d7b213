// Work on an instrument of fanned frets: new wire, and a neck that is reset about its joint.
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
}
