#include <tautline/action/clearance.hpp>

#include <random>
#include <vector>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;
using lengths = std::vector<length<double>>;

namespace {
const string_line s{.nut_x = 0 * mm, .nut_z = 1.5 * mm, .saddle_x = 600 * mm, .saddle_z = 8 * mm};
const lengths x{100 * mm, 200 * mm, 300 * mm, 400 * mm};
} // namespace

TEST_CASE("a pressed string clears each later fret by its own line") {
    const lengths z{1 * mm, 1 * mm, 1 * mm, 1 * mm};
    const auto at1 = least_clearance(s, x, z, 1);
    REQUIRE(at1);
    CHECK(at1->fret_number() == 2);
    CHECK(near::within(at1->gap, 7 * mm * 0.2, 1e-12 * mm));
    CHECK_FALSE(least_clearance(s, x, z, 4)); // nothing ahead
    CHECK_FALSE(least_clearance(s, {}, {}, 0));
    CHECK(least_clearance(s, x, z, 0)->fret_number() == 1);
    CHECK(near::within(least_clearance(s, x, z, 0)->gap, 0.5 * mm + 6.5 / 6 * mm, 1e-12 * mm));
}

TEST_CASE("a high fret is found, and a note that frets out has no gap left") {
    const lengths z{1 * mm, 1 * mm, 1 * mm, 3.4 * mm};
    CHECK(least_clearance(s, x, z, 3)->fret_number() == 4);
    CHECK(least_clearance(s, x, z, 3)->gap < 0 * mm);
    CHECK(least_clearance(s, x, z, 1)->fret_number() == 2);
    const lengths hollow{1 * mm, 0.6 * mm, 1 * mm, 5.2 * mm};
    CHECK(near::within(least_clearance(s, x, hollow, 1)->gap, 0 * mm, 1e-9 * mm));
    CHECK(least_clearance(s, x, hollow, 1)->fret_number() == 4);
}

TEST_CASE("property: raising the saddle lowers no clearance; a fret made higher ahead raises none") {
    std::mt19937 random(41);
    std::uniform_real_distribution<double> noise(0, 0.2), up(0, 1);
    for (int i = 0; i < 200; ++i) {
        lengths places, crests;
        for (int n = 1; n <= 22; ++n) {
            places.push_back(600 * (1 - std::exp2(-n / 12.0)) * mm);
            crests.push_back((1 + noise(random)) * mm);
        }
        string_line high = s;
        high.saddle_z = high.saddle_z + up(random) * mm;
        lengths higher = crests;
        higher[static_cast<std::size_t>(i % 22)] += 0.1 * mm;
        for (std::size_t n = 0; n < 22; ++n) {
            const auto base = least_clearance(s, places, crests, n)->gap;
            CHECK(least_clearance(high, places, crests, n)->gap >= base - 1e-12 * mm);
            if (n < static_cast<std::size_t>(i % 22)) {
                CHECK(least_clearance(s, places, higher, n)->gap <= base + 1e-12 * mm);
            }
        }
    }
}

TEST_CASE("a dual carries the derivative of the least gap") {
    using D = dual<double, 1>;
    basic_string_line<D> d = over<D>(s);
    d.saddle_z = length<D>::from_value(D::variable(0.008, 0));
    const std::vector<length<D>> dx{length<D>(100 * mm), length<D>(200 * mm)}, dz{length<D>(1 * mm), length<D>(1 * mm)};
    CHECK(near::relative(least_clearance(d, dx, dz, 1)->gap.value().partial[0], 0.2, 1e-12));
}

TEST_CASE("a fret that does not exist is refused") {
    CHECK_THROWS_AS((void)least_clearance(s, x, lengths(4), 5), invalid_input);
    CHECK_THROWS_AS((void)least_clearance(s, x, lengths(3), 0), invalid_input);
}
