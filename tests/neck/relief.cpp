#include <tautline/neck/relief.hpp>

#include <vector>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {
/// Crests on z = a (x - 100)^2 + 0.01 x, in mm.
std::vector<crest> parabola(double a) {
    std::vector<crest> all;
    for (double x = 0; x <= 200; x += 20) {
        all.push_back({.x = x * mm, .z = (a * (x - 100) * (x - 100) + 0.01 * x) * mm});
    }
    return all;
}
} // namespace

TEST_CASE("relief is the gap of largest magnitude, with its sign and place, whatever the tilt") {
    auto r = relief_between<double>(parabola(2e-5), 0, 10);
    CHECK(near::within(r.gap, 0.2 * mm, 1e-12 * mm));
    CHECK(near::within(r.x, 100 * mm, 1e-12 * mm));
    CHECK(r.index == 5);
    r = relief_between<double>(parabola(-3e-5), 0, 10);
    CHECK(near::within(r.gap, -0.3 * mm, 1e-12 * mm));
    r = relief_between<double>(parabola(2e-5), 1, 6); // between other frets: 20 ... 120, largest at 60 or 80
    CHECK(near::within(r.gap, 2e-5 * 60 * 40 * mm, 1e-12 * mm));
}

TEST_CASE("an S is given by its larger half") {
    const std::vector<crest> s{{.x = 0 * mm, .z = 0 * mm},
                               {.x = 10 * mm, .z = -0.1 * mm},
                               {.x = 20 * mm, .z = 0.15 * mm},
                               {.x = 30 * mm, .z = 0 * mm}};
    const auto r = relief_between<double>(s, 0, 3);
    CHECK(near::within(r.gap, -0.15 * mm, 1e-12 * mm));
    CHECK(r.index == 2);
}

TEST_CASE("two crests have no relief") { CHECK(relief_between<double>(parabola(1e-5), 3, 4).gap == 0 * mm); }

TEST_CASE("a dual carries the relief's derivative by each height") {
    using D = dual<double, 1>;
    std::vector<basic_crest<D>> crests;
    for (const auto& c : parabola(2e-5)) { crests.push_back(over<D>(c)); }
    crests[5].z = tautline::length<D>::from_value(D::variable(crests[5].z.value().value, 0));
    CHECK(near::within(relief_between<D>(crests, 0, 10).gap.value().partial[0], -1, 1e-12));
}

TEST_CASE("bad input is named") {
    auto crests = parabola(1e-5);
    CHECK_THROWS_AS((void)relief_between<double>(crests, 4, 4), invalid_input);
    CHECK_THROWS_AS((void)relief_between<double>(crests, 0, 11), invalid_input);
    CHECK_THROWS_AS((void)relief_between<double>({}, 0, 1), invalid_input);
    crests[3].x = 20 * mm;
    CHECK_THROWS_WITH((void)relief_between<double>(crests, 0, 10),
                      "crest.x must be further from the nut than the crest before it.");
    crests = parabola(1e-5);
    crests[3].z = std::nan("") * mm;
    CHECK_THROWS_AS((void)relief_between<double>(crests, 0, 10), invalid_input);
}
