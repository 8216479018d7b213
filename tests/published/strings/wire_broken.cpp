// Music wire pulled until it yields and breaks, and how hard strings are to push aside.

#include <tautline/strings/stretch.hpp>
#include <tautline/strings/wire_materials.hpp>

#include <vector>

#include "published/record.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

struct broken_wire {
    double inch, break_lbf, yield_lbf;
};
/// Sizes 13, 13.5, 14, 16 and 18, their diameters from memory.
constexpr broken_wire broken_wires[] = {
    {.031, 290, 258}, {.032, 303, 267}, {.033, 355, 317}, {.037, 398, 347}, {.041, 487, 431}};

force<> least_break(double inch_wide) { return *breaking_tension<double>(plain_string(music_wire(), inch_wide * inch)); }

} // namespace

TEST_CASE("music wire broken in an engineering laboratory (J. Coleman, quoted by R. Moody 1997; diameters from memory)" *
          published::measured_quoted) {
    for (const auto& w : broken_wires) {
        CAPTURE(w.inch);
        const auto broke = w.break_lbf * lbf, least = least_break(w.inch);
        // The library's is the least that the standard allows: a floor. Wire that is sold is better by a seventh to a
        // quarter.
        CHECK(published::relative("least breaking pull, a floor", least, broke, 0.23));
        CHECK(least < broke);
        CHECK(least > 0.7 * broke);
    }
    // It falls with the diameter as the curve says: thickest against thinnest in stress, without the one that is out of
    // line.
    const auto stress_of = [](const force<>& pull, double inch_wide) {
        return pull / (std::numbers::pi / 4 * (inch_wide * inch) * (inch_wide * inch));
    };
    const auto &thin = broken_wires[0], &thick = broken_wires[4];
    CHECK(published::within("strength of 0.041 in over that of 0.031 in",
                            stress_of(least_break(thick.inch), thick.inch) / stress_of(least_break(thin.inch), thin.inch),
                            stress_of(thick.break_lbf * lbf, thick.inch) / stress_of(thin.break_lbf * lbf, thin.inch),
                            0.02));
}

TEST_CASE("an exhibition's test of 1867 (A. Dolge, Pianos and their makers, 1911, quoted by R. Moody): wire of that age is "
          "no modern wire" *
          published::measured_quoted) {
    // Sizes 13 to 18 in half-thousandths: even steps of 0.002 in from 0.031 (from memory).
    const double old_wire[] = {226, 264, 292, 296, 312, 348};
    for (int i = 0; i < 6; ++i) {
        const double inch_wide = 0.031 + 0.002 * i;
        CHECK(published::relative("least breaking pull of today, disagrees: the old wire was weaker",
                                  least_break(inch_wide), old_wire[i] * lbf, 0.21));
    }
    CHECK(least_break(0.041) > old_wire[5] * lbf);
}

TEST_CASE(
    "music wire yields: 0.87 to 0.89 of breaking in that laboratory; 1689 MPa at 0.56 mm (U. P. Sinha and D. W. Levinson, "
    "J. Testing and Evaluation 1992, as quoted)" *
    published::measured_quoted) {
    // A string is warned about before it yields, not before it breaks: in each test, at the pull at which it yielded.
    for (const auto& w : broken_wires) {
        const auto yields = w.yield_lbf * lbf;
        CHECK(*share_of_strength<double>(plain_string(music_wire(), w.inch * inch), yields) > strength_warning);
    }
    const auto sinha = plain_string(music_wire(), 0.56 * mm);
    const double share = 1689 * MPa / *minimum_strength(music_wire(), 0.56 * mm);
    CHECK(published::within("share of the least strength that is warned about, at or below where it yields",
                            strength_warning, share, 0.02));
    CHECK(*share_of_strength<double>(sinha, 1689 * MPa * (std::numbers::pi / 4 * 0.56 * 0.56 * mm2)) > strength_warning);
    // The two tests differ: 0.71 against 1.02 to 1.15 of the least strength.
    CHECK(share < 0.72);
}

TEST_CASE(
    "M. Zollner, Physics of the electric guitar, ch. 1.5: plucked 6 to 10 cm from the bridge a string is 1000 to 2000 N/m "
    "stiff, 2 mm aside it holds 2 to 4 mJ" *
    published::measured) {
    // A band: the pulls of a set, 70 to 110 N, on 650 mm (common practice, no source).
    const auto softest = lateral_stiffness(70 * N, 100 * mm, 550 * mm),
               hardest = lateral_stiffness(110 * N, 60 * mm, 590 * mm);
    CHECK(published::relative("softest, N/m", softest.value(), 1000, 0.2));
    CHECK(published::relative("hardest, N/m", hardest.value(), 2000, 0.2));
    CHECK(published::relative("least energy at 2 mm, mJ", 0.5e3 * softest.value() * 4e-6, 2, 0.2));
    CHECK(published::relative("most energy at 2 mm, mJ", 0.5e3 * hardest.value() * 4e-6, 4, 0.2));
}

TEST_CASE("fingers on a violin string, JASA 140 (2016) 3429, abstract: 1.7 N fast to 4.5 N slow" * published::measured) {
    // 36 mm from the nut of 328 mm under 55 N (common practice, no source), pushed down 1.0 to 2.6 mm: a band that the
    // formula reaches.
    const auto stiff = lateral_stiffness(55 * N, 36 * mm, 292 * mm);
    CHECK(published::relative("least force, 1.0 mm deep", stiff * (1.0 * mm), 1.7 * N, 0.15));
    CHECK(published::relative("most force, 2.6 mm deep", stiff * (2.6 * mm), 4.5 * N, 0.15));
}
