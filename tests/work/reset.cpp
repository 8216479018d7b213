#include <tautline/work/reset.hpp>

#include <complex>

#include "near.hpp"
#include "setup/demo.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

strung_instrument floating() {
    strung_instrument on{demo::four_course(), demo::unison_pairs()};
    on.instrument.feet = bridge_feet{
        .ahead = 6 * mm, .behind = 9 * mm, .top_slope = 1.5 * deg, .bass_foot = -34 * mm, .treble_foot = 34 * mm};
    return on;
}
strung_instrument pinned() {
    strung_instrument on{demo::four_course(), demo::unison_pairs()};
    on.instrument.tailpiece.reset();
    on.instrument.pins =
        pins{.distance = 22 * mm, .height = 7 * mm, .spread = 50 * mm, .top_thickness = 3 * mm, .saddle_exposed = 4 * mm};
    return on;
}
angle<> thousandths(double t) { return t * 1e-3 * rad; }

using flat = std::complex<double>; // a point from the side, in millimetres
/// What stayed on the body, seen from the neck that turned about the edge and moved by `leave`.
flat seen(const strung_instrument& on, const flat& p, angle<> turn, double leave = 0) {
    const flat edge(joint_place(on.instrument) / mm, -5.5);
    return edge + (p - leave - edge) * std::polar(1.0, -turn / rad);
}
struct places {
    flat bass, treble, behind; ///< saddle tops; hinge or pin
    explicit places(const instrument& i) {
        const double line = i.board.scale.scale_length / mm, top = -(i.saddle.board_line / mm);
        bass = {line + i.saddle.setback_bass / mm, top + i.saddle.height_bass / mm};
        treble = {line + i.saddle.setback_treble / mm, top + i.saddle.height_treble / mm};
        behind = i.pins ? flat(line + i.pins->distance / mm, top + i.pins->height / mm)
                        : flat(line + i.tailpiece->hinge_distance / mm, top + i.tailpiece->hinge_height / mm);
    }
};
void same(const flat& a, const flat& b) { CHECK(std::abs(a - b) < 1e-9); }

} // namespace

TEST_SUITE("reset of a described instrument") {
    TEST_CASE("saddle tops, hinge and pins go where the turn takes them; board, nut and neck stay") {
        for (const auto& on : {floating(), pinned()}) {
            for (const double t : {-20.0, 3.0, 12.0}) {
                for (const double leave : {0.0, 0.6}) {
                    const auto after = after_reset(on, {.turn = thousandths(t), .leave = leave * mm}).instrument;
                    const places from(on.instrument), to(after);
                    same(to.bass, seen(on, from.bass, thousandths(t), leave));
                    same(to.treble, seen(on, from.treble, thousandths(t), leave));
                    same(to.behind, seen(on, from.behind, thousandths(t), leave));
                    CHECK(after.nut.slot_heights[0] == on.instrument.nut.slot_heights[0]);
                    CHECK(after.neck.depth_at_joint == on.instrument.neck.depth_at_joint);
                    CHECK(after.headstock.pitch == on.instrument.headstock.pitch);
                    CHECK(after.board.board_length == on.instrument.board.board_length);
                    // Over the soundboard the saddle stands as high as it did, but for the slant between its two setbacks.
                    CHECK(near::within((after.saddle.height_bass + after.saddle.height_treble) / 2.0,
                                       (on.instrument.saddle.height_bass + on.instrument.saddle.height_treble) / 2.0,
                                       0.005 * mm));
                    CHECK(near::within(after.saddle.height_bass, length<>(on.instrument.saddle.height_bass), 0.03 * mm));
                }
            }
        }
    }
    TEST_CASE("no turn and nothing left off changes nothing") {
        const auto on = floating();
        const auto after = after_reset(on, {.turn = 0 * deg}).instrument;
        CHECK(near::within(after.saddle.board_line, length<>(on.instrument.saddle.board_line), 1e-12 * mm));
        CHECK(near::within(after.saddle.height_treble, length<>(on.instrument.saddle.height_treble), 1e-12 * mm));
        CHECK(near::within(after.feet->ahead, length<>(on.instrument.feet->ahead), 1e-12 * mm));
        CHECK(near::within(after.tailpiece->hinge_height, length<>(on.instrument.tailpiece->hinge_height), 1e-12 * mm));
    }
    TEST_CASE("the board's line rises over the soundboard by theta (x_s - x_e), and says its turn") {
        const auto on = pinned();
        const auto after = after_reset(on, {.turn = thousandths(5)});
        const double reach = 560 + 2 - joint_place(on.instrument) / mm; // the saddle's middle is set back by 2 mm
        CHECK(
            near::within((after.instrument.saddle.board_line - on.instrument.saddle.board_line) / mm, 5e-3 * reach, 0.02));
        CHECK(near::within(
            turn_of_board_line(on.instrument, on.instrument.saddle.board_line, on.instrument.saddle.board_line + 1.4 * mm) /
                rad,
            1.4 / (560 - joint_place(on.instrument) / mm), 1e-7));
    }
    TEST_CASE("a turn and its opposite undo each other") {
        for (const auto& on : {floating(), pinned()}) {
            const auto back = after_reset(after_reset(on, {.turn = thousandths(9)}), {.turn = thousandths(-9)}).instrument;
            const places from(on.instrument), to(back);
            same(to.bass, from.bass);
            same(to.treble, from.treble);
            same(to.behind, from.behind);
            CHECK(near::within(back.saddle.board_line, length<>(on.instrument.saddle.board_line), 0.01 * mm));
        }
    }
    TEST_CASE("feet keep their length along, the top under them leans the other way") {
        const auto on = floating();
        const auto after = after_reset(on, {.turn = thousandths(10)}).instrument;
        CHECK(near::within((after.feet->top_slope - on.instrument.feet->top_slope) / rad, -10e-3, 1e-12));
        const auto along = [](const bridge_feet& f) { return (f.ahead + f.behind) / std::cos(f.top_slope / rad) / mm; };
        CHECK(near::within(along(*after.feet), along(*on.instrument.feet), 1e-9));
    }
    TEST_CASE("solved, the strings meet the frets as geometry says, and break more over the saddle") {
        for (const auto& given : {floating(), pinned()}) {
            auto on = given;
            // A neck that does not bow: what is left is geometry.
            on.instrument.neck.board_modulus = on.instrument.neck.back_modulus = 900 * GPa;
            const auto before = solve(on);
            for (const double t : {-4.0, 6.0}) {
                const auto turned = after_reset(on, {.turn = thousandths(t), .leave = 0.3 * mm});
                const auto after = solve(turned);
                for (const std::size_t k : {std::size_t{0}, std::size_t{5}}) {
                    const auto& one = before.strings[k];
                    const reset_case c{{.x = joint_place(on.instrument), .z = -5.5 * mm, .leave = 0.3 * mm},
                                       one.line,
                                       before.fret_x[11],
                                       one.crest_z[11]};
                    CHECK(near::within(after.strings[k].heights[11], action_after_turn(c, thousandths(t)), 1e-3 * mm));
                    const auto more = after.strings[k].at_saddle.down_break - one.at_saddle.down_break;
                    // A hinged tailpiece swings after; pins stay. Axes and inner slots stand higher than the outer slots by
                    // which the saddle is turned: a hundredth of a millimetre along.
                    if (on.instrument.pins) {
                        CHECK(near::within(more / deg, break_change(c, thousandths(t)) / deg, 0.02));
                    }
                    CHECK((more > 0 * deg) == (t > 0));
                }
            }
        }
    }
    TEST_CASE("what lies on the body is told anew; what lies on the board goes with it") {
        const auto on = pinned();
        const flat_object pickup{.x = 450 * mm, .z = -4 * mm, .extent = 20 * mm, .along = 1 * deg};
        const reset by{.turn = thousandths(8), .leave = 0.5 * mm};
        const auto there = object_after_reset(on.instrument, by, pickup);
        const auto to = seen(on, {450, -4}, thousandths(8), 0.5);
        CHECK(near::within(there.x / mm, to.real(), 1e-9));
        CHECK(near::within(there.z / mm, to.imag(), 1e-9));
        CHECK(near::within((there.along - pickup.along) / rad, -8e-3, 1e-12));
        const auto end = object_after_reset(on.instrument, by, {.x = 395 * mm, .z = 0 * mm, .extent = 0 * mm});
        CHECK(end.x == 395 * mm);
        CHECK(end.z == 0 * mm);
    }
    TEST_CASE("the edge lies under the board unless it is told deeper") {
        const auto on = pinned();
        const auto shallow = after_reset(on, {.turn = thousandths(8)}).instrument,
                   deep = after_reset(on, {.turn = thousandths(8), .edge_depth = 20 * mm}).instrument;
        // Deeper by 14.5 mm: the body comes so much times the sine less far back.
        CHECK(near::within((shallow.saddle.setback_bass - deep.saddle.setback_bass) / mm, -14.5 * std::sin(8e-3), 1e-9));
    }
    TEST_CASE("derivatives go through, bad input is named") {
        using D = dual<double, 1>;
        auto d = over<D>(pinned());
        const auto turned = after_reset(d, {.turn = angle<D>::from_value(D::variable(5e-3, 0))});
        const auto line = [](double t) {
            return after_reset(pinned(), {.turn = t * rad}).instrument.saddle.board_line.value();
        };
        CHECK(near::relative(turned.instrument.saddle.board_line.value().partial[0], (line(5.01e-3) - line(4.99e-3)) / 2e-5,
                             1e-6));
        CHECK_THROWS_WITH((void)after_reset(pinned(), {.turn = 4 * deg}), doctest::Contains("reset.turn is 4 deg"));
        CHECK_THROWS_WITH((void)object_after_reset(pinned().instrument, {.turn = 0 * deg, .leave = -1 * mm}, flat_object()),
                          doctest::Contains("reset.leave is -1 mm"));
        CHECK_THROWS_AS((void)after_reset(strung_instrument(), {.turn = 0 * deg}), invalid_input);
    }
}
