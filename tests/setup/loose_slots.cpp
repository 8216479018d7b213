#include <tautline/core/leaves.hpp>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/setup/finding_sentence.hpp>
#include <tautline/setup/solve.hpp>

#include <algorithm>

#include <doctest/doctest.h>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// The flat-top, its rod slack, with slots so deep that bear so much.
strung_instrument slotted_flat_top(const length<>& depth, double bearing) {
    const auto o = ready_made::flat_top();
    strung_instrument on{o.instrument, string_up(o.strings, o.a4)};
    on.instrument.neck.set.clear();
    on.instrument.neck.rod_pull = 0 * N;
    on.instrument.neck.slots = neck_slots{.depth = depth};
    on.instrument.neck.slots->bearing = bearing;
    return on;
}
const finding* slots_of(const setup& s) {
    const auto at = std::find_if(s.findings.begin(), s.findings.end(),
                                 [](const finding& f) { return f.kind == finding_kind::slots_loose; });
    return at == s.findings.end() ? nullptr : &*at;
}

} // namespace

TEST_SUITE("loose slots") {
    TEST_CASE("tight slots cost nothing and are not told; nor is an instrument without any") {
        const auto tight = slotted_flat_top(2 * mm, 1);
        CHECK(loose_slots_of(tight).stiffness == 0);
        CHECK(loose_slots_of(tight).relief == 0 * mm);
        CHECK_FALSE(slots_of(solve(tight)));
        auto none = tight;
        none.instrument.neck.slots.reset();
        CHECK_FALSE(slots_of(solve(none)));
        CHECK(loose_slots_of(none).stiffness == 0);
    }
    TEST_CASE("empty slots cost as much as plane finite elements say of such necks") {
        // Docstring of `basic_fret_slots`: 2 mm deep 12 to 20 % of the rigidity, 3 mm 23 to 34 %, 36 to 18 mm apart.
        const double shallow = loose_slots_of(slotted_flat_top(2 * mm, 0)).stiffness,
                     deep = loose_slots_of(slotted_flat_top(3 * mm, 0)).stiffness;
        CHECK(shallow > 0.10);
        CHECK(shallow < 0.21);
        CHECK(deep > 0.20);
        CHECK(deep < 0.36);
    }
    TEST_CASE("the relief is that of two solves, and grows as the stiffness falls") {
        const auto loose = slotted_flat_top(2.5 * mm, 0.3), tight = slotted_flat_top(2.5 * mm, 1);
        const auto cost = loose_slots_of(loose);
        const auto limp = solve(loose), firm = solve(tight);
        CHECK(near::within(cost.relief.value(), (limp.board_relief->gap - firm.board_relief->gap).value(), 1e-12));
        CHECK(near::within(cost.relief_full.value(), firm.board_relief->gap.value(), 1e-12));
        // A straight neck without a rod bows by M/EI: so much more as it is less stiff, and as its neutral axis, which
        // sinks with the board's top, lies further below the strings. Second order and where the slots lie aside.
        const auto lever = [](const setup& x) {
            const auto& middle = x.beam.points[x.beam.points.size() / 2];
            return (x.pulls[2].z_nut + x.pulls[2].z_saddle) * 0.5 - middle.neutral_axis;
        };
        const double by_hand = lever(limp) / lever(firm) / (1 - cost.stiffness);
        CHECK(near::relative(limp.board_relief->gap / firm.board_relief->gap, by_hand, 0.04));
        CHECK(lever(limp) > lever(firm));
        // Finite difference: relief between two bearings is what the derivative says midway.
        using D = dual<double, 1>;
        auto seeded = over<D>(slotted_flat_top(2.5 * mm, 0.65));
        seeded.instrument.neck.slots->bearing = D::variable(0.65, 0);
        const double slope = solve(seeded).board_relief->gap.value().partial[0];
        CHECK(near::relative(-cost.relief.value() / 0.7, slope, 0.03));
    }
    TEST_CASE("the finding says share and relief, and warns where a feeler would see it") {
        const auto limp = solve(slotted_flat_top(2.5 * mm, 0.3));
        const auto cost = loose_slots_of(slotted_flat_top(2.5 * mm, 0.3));
        const finding* f = slots_of(limp);
        REQUIRE(f);
        CHECK(f->severity == (cost.relief.value() < 0.05e-3 ? severity::note : severity::warning));
        CHECK(near::within(f->number.si(), cost.relief.value(), 1e-12));
        CHECK(sentence_of(*f, limp.names)
                  .find(messages::joined({"costs ", std::lround(100 * cost.stiffness),
                                          " % of the neck's bending stiffness"})) != std::string::npos);
        CHECK(sentence_of(*f, limp.names).find("not filled tightly") != std::string::npos);
        const auto empty = solve(slotted_flat_top(2.5 * mm, 0));
        CHECK(sentence_of(*slots_of(empty), empty.names).find("are empty") != std::string::npos);
        CHECK(slots_of(solve(slotted_flat_top(2.5 * mm, 0)))->severity == severity::warning);
        CHECK(slots_of(solve(slotted_flat_top(1 * mm, 0.95)))->severity == severity::note);
    }
}
