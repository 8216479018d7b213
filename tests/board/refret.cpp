#include <tautline/board/refret.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

frets of_height(double mm_high, std::vector<double> wear = {}) {
    frets f{
        .wire = {.crown_height = mm_high * mm, .crown_width = 2 * mm, .tang_depth = 1.5 * mm, .tang_thickness = 0.5 * mm}};
    for (const double w : wear) { f.wear.push_back(w * mm); }
    return f;
}
const scale octave{.scale_length = 560 * mm, .frets = 20};

} // namespace

TEST_CASE("refret: a crown taller everywhere lifts nut and saddle by as much") {
    const auto c = refret_change(octave, of_height(0.9), of_height(1.2), 12, 562 * mm);
    CHECK(near::within(c.nut_rise, 0.3 * mm, 1e-12 * mm));
    CHECK(near::within(c.saddle_rise, 0.3 * mm, 1e-12 * mm));
    CHECK(near::within(c.action_change, -0.3 * mm, 1e-12 * mm));
}

TEST_CASE("refret: wear counts at the fret where it is") {
    const auto c = refret_change(octave, of_height(1, {0.4, 0.2}), of_height(1.1), 12, 560 * mm);
    CHECK(near::within(c.crown_rise_at_first, 0.5 * mm, 1e-12 * mm));
    CHECK(near::within(c.crown_rise_at_action, 0.1 * mm, 1e-12 * mm));
    // Halfway along: the mean of nut and saddle rises by what the crest does.
    CHECK(near::within((c.nut_rise + c.saddle_rise) / 2.0, 0.1 * mm, 1e-12 * mm));
    CHECK(near::within(c.saddle_rise, -0.3 * mm, 1e-12 * mm));
}

TEST_CASE("refret: a zero fret lifts the string with its own wire") {
    auto zero = octave;
    zero.zero_fret = true;
    const auto c = refret_change(zero, of_height(0.9, {0.3}), of_height(1.2), 12, 560 * mm);
    CHECK(near::within(c.nut_rise, 0.3 * mm, 1e-12 * mm)); // not 0.6: fret 1 was worn, the zero fret not
    CHECK(near::within(c.action_change, -0.15 * mm, 1e-12 * mm));
    CHECK(near::within(c.saddle_rise, 0.3 * mm, 1e-12 * mm));
}

TEST_CASE("refret: derivative by the new crown; bad input is named") {
    using D = dual<double, 1>;
    auto fresh = over<D>(of_height(1.2));
    fresh.wire.crown_height = D::variable(1.2e-3, 0) * metre;
    CHECK(near::relative(
        refret_change(over<D>(octave), over<D>(of_height(1)), fresh, 9, 560 * mm).saddle_rise.value().partial[0], 1.0,
        1e-12));
    CHECK_THROWS_AS((void)refret_change(octave, of_height(1), of_height(1), 0, 560 * mm), invalid_input);
    CHECK_THROWS_AS((void)refret_change(octave, of_height(1), of_height(1), 21, 560 * mm), invalid_input);
    CHECK_THROWS_AS((void)refret_change(octave, of_height(1), of_height(-1), 12, 560 * mm), invalid_input);
    CHECK_THROWS_AS((void)refret_change(octave, of_height(1), of_height(1), 12, 200 * mm), invalid_input);
}

TEST_CASE("refret: scale and old frets are looked at") {
    using doctest::Contains;
    CHECK_THROWS_WITH((void)refret_change(scale(), of_height(1), of_height(1), 12, 560 * mm),
                      Contains("scale.scale_length is not given"));
    CHECK_THROWS_WITH((void)refret_change(octave, of_height(-1), of_height(1), 12, 560 * mm),
                      Contains("old.wire.crown_height is -1 mm"));
}
