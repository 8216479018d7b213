#include <tautline/neck/fret_slots.hpp>

#include "demo_neck.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("tangs stretch the board by their share of the interference over the bay; the nut's bay has one tang") {
    const fret_slots slots{
        .interference = 0.06 * mm, .share = 0.5, .tang_depth = 2 * mm, .places = {30 * mm, 50 * mm, 65 * mm}};
    CHECK(near::relative(kernel::tang_strain(slots, 0), 0.5 * 0.5 * 0.06 / 30, 1e-12));
    CHECK(near::relative(kernel::tang_strain(slots, 1), 0.5 * 0.06 / 20, 1e-12));
    CHECK(near::relative(kernel::tang_strain(slots, 2), 0.5 * 0.06 / 15, 1e-12));
}

TEST_CASE("each bay of the beam bends by its own tangs, past the last fret none does") {
    neck n = demo::plain_neck();
    n.slots =
        fret_slots{.interference = 0.06 * mm, .share = 0.5, .tang_depth = 2 * mm, .places = {30 * mm, 50 * mm, 65 * mm}};
    const auto at = [&](double x) {
        const auto p = section_at(n, x * mm);
        return p.free_curvature * p.bending_rigidity; // the moment that would bend it so
    };
    CHECK(at(20) < 0 * N_m);
    CHECK(at(40) < 2.8 * at(20)); // strain 0.0015 against 0.0005
    CHECK(at(40) > 3.2 * at(20));
    CHECK(at(60) < at(40));
    CHECK(at(70) == 0 * N_m);
    n.slots->share = 0; // the default: nothing is known of it
    CHECK(at(40) == 0 * N_m);
}

TEST_CASE(
    "a layer above the axis that wants to be longer bends back, one below bends forward, the whole section not at all") {
    const auto top = rectangle_sums(10 * GPa, 40 * mm, 0 * mm, -3 * mm);
    const auto rest = rectangle_sums(10 * GPa, 40 * mm, -3 * mm, -20 * mm);
    const auto low = rectangle_sums(10 * GPa, 40 * mm, -15 * mm, -20 * mm);
    const auto whole = section_from(top + rest);
    CHECK(strain_curvature(whole, top, 1e-4) < 0 * per_metre);
    CHECK(strain_curvature(whole, low, 1e-4) > 0 * per_metre);
    CHECK(near::within(strain_curvature(whole, top + rest, 1e-4), 0 * per_metre, 1e-12 * per_metre));
    CHECK(near::relative(strain_curvature(whole, top, 2e-4), 2.0 * strain_curvature(whole, top, 1e-4), 1e-12));
    CHECK_THROWS_AS((void)strain_curvature(section{}, top, 1e-4), invalid_input);
    CHECK_THROWS_AS((void)strain_curvature(whole, top, std::nan("")), invalid_input);
}
