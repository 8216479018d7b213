#include <tautline/action/pluck.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <random>
#include <span>
#include <vector>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;
using lengths = std::vector<length<double>>;

namespace {
const string_line s{.nut_x = 0 * mm, .nut_z = 1.5 * mm, .saddle_x = 600 * mm, .saddle_z = 8 * mm};
lengths frets() {
    lengths x;
    for (int n = 1; n <= 18; ++n) { x.push_back(600 * (1 - std::exp2(-n / 12.0)) * mm); }
    return x;
}
const lengths crests(18, 1 * mm);
} // namespace

TEST_CASE("a string pulled in its middle gives way by F l / 4 T") {
    CHECK(near::relative(pluck_displacement(2 * N, 300 * mm, 600 * mm, 75 * N), 4 * mm, 1e-12));
    CHECK(near::relative(pluck_displacement(2 * N, 100 * mm, 600 * mm, 75 * N), 2 * 0.1 * 0.5 / (75 * 0.6) * metre, 1e-12));
}

TEST_CASE("notes looked at side by side clear what each fret in turn shows, whatever the number of frets") {
    std::mt19937 random(7);
    std::uniform_real_distribution<double> height(0.5, 1.6);
    constexpr std::size_t W = kernel::notes_together<double>;
    for (const int frets : {1, 2, 3, 7, 8, 19, 24, 40}) {
        lengths x, z;
        for (int n = 1; n <= frets; ++n) {
            x.push_back(600 * (1 - std::exp2(-n / 12.0)) * mm);
            z.push_back(height(random) * mm);
        }
        for (std::size_t first = 0; first < x.size(); first += W) {
            std::array<length<double>, W> places;
            std::array<force<double>, W> pulls;
            for (std::size_t k = 0; k < W; ++k) {
                places[k] = (20 + 5.0 * static_cast<double>(k)) * mm;
                pulls[k] = (70 + 2.0 * static_cast<double>(k)) * N;
            }
            const std::size_t count = std::min(W, x.size() - first);
            std::array<least_clearance_result, W> gaps;
            std::array<clean_pluck, W> some;
            kernel::rooms_of_notes<double>(s, x, z, first, places, pulls, std::span(gaps).first(count),
                                           std::span(some).first(count));
            for (std::size_t k = 0; k < count; ++k) {
                // The plain way: every fret ahead by itself, in millimetres.
                const std::size_t n = first + k;
                const double from = n == 0 ? 0 : x[n - 1] / mm, low = n == 0 ? s.nut_z / mm : z[n - 1] / mm;
                const double l = s.saddle_x / mm - from, p = places[k] / mm, slope = (s.saddle_z / mm - low) / l;
                double gap = 1e30, room = 1e30;
                std::size_t gap_fret = 0, room_fret = 0;
                for (std::size_t i = n; i < x.size(); ++i) {
                    const double here = low + slope * (x[i] / mm - from) - z[i] / mm, q = s.saddle_x / mm - x[i] / mm;
                    const auto triangle = [&](double corner) { return q < corner ? q / corner : (l - q) / (l - corner); };
                    const double share = std::max(triangle(p), triangle(l - p));
                    if (here < gap) {
                        gap = here;
                        gap_fret = i + 1;
                    }
                    if (std::max(here, 0.0) / share < room) {
                        room = std::max(here, 0.0) / share;
                        room_fret = i + 1;
                    }
                }
                INFO(frets << " frets, pressed at " << n);
                CHECK(near::within(gaps[k].gap, gap * mm, 1e-12 * mm));
                CHECK(gaps[k].fret_number() == static_cast<int>(gap_fret));
                CHECK(near::within(some[k].displacement, room * mm, 1e-11 * mm));
                CHECK(some[k].fret_number() == static_cast<int>(room_fret));
                const auto one = hardest_clean_pluck(s, x, z, n, places[k], pulls[k]);
                REQUIRE(one);
                CHECK(one->pull == some[k].pull);
                const auto least = least_clearance(s, x, z, n);
                REQUIRE(least);
                CHECK(near::within(least->gap, gaps[k].gap, 1e-15 * mm));
                CHECK(least->fret_number() == gaps[k].fret_number());
            }
        }
    }
}

TEST_CASE("unplucked is unplucked, and a pluck takes room") {
    const auto x = frets();
    for (std::size_t n = 0; n < 18; ++n) {
        const auto still = least_clearance(s, x, crests, n), zero = plucked_clearance(s, x, crests, n, 120 * mm, 0 * mm);
        CHECK(still->gap == zero->gap);
        CHECK(still->fret_number() == zero->fret_number());
        CHECK(plucked_clearance(s, x, crests, n, 120 * mm, 1 * mm)->gap < still->gap);
        CHECK(plucked_clearance(s, x, crests, n, 120 * mm, 1 * mm)->gap ==
              plucked_clearance(s, x, crests, n, 120 * mm, -1 * mm)->gap);
    }
    CHECK_FALSE(plucked_clearance(s, x, crests, 18, 120 * mm, 1 * mm));
}

TEST_CASE("property: the hardest clean pluck just touches, at the fret it names") {
    std::mt19937 random(131);
    std::uniform_real_distribution<double> noise(0, 0.08), place(30, 200);
    const auto x = frets();
    for (int i = 0; i < 50; ++i) {
        lengths z;
        for (int n = 0; n < 18; ++n) { z.push_back((1 + noise(random)) * mm); }
        const auto p = place(random) * mm;
        for (std::size_t n = 0; n < 18; ++n) {
            const auto hard = hardest_clean_pluck(s, x, z, n, p, 70 * N);
            REQUIRE(hard);
            if (least_clearance(s, x, z, n)->gap <= 0 * mm) {
                CHECK(hard->displacement == 0 * mm);
                continue;
            }
            const auto touching = plucked_clearance(s, x, z, n, p, hard->displacement);
            CHECK(near::within(touching->gap, 0 * mm, 1e-9 * mm));
            CHECK(plucked_clearance(s, x, z, n, p, 0.99 * hard->displacement)->gap > 0 * mm);
            CHECK(plucked_clearance(s, x, z, n, p, 1.01 * hard->displacement)->gap < 0 * mm);
            const auto speaking = 600 * mm - (n == 0 ? 0 * mm : x[n - 1]);
            CHECK(near::relative(pluck_displacement(hard->pull, p, speaking, 70 * N), hard->displacement, 1e-9));
        }
    }
}

TEST_CASE("over straight frets a hard pluck meets several at once: the one nearest the nut is named") {
    // Both the room and the string's dip grow evenly from the pressed fret on, as far as the corner that the pluck makes.
    const auto x = frets();
    for (const double saddle : {6.1, 7.3, 8.0, 9.7}) {
        for (const double crest : {0.9, 1.0, 1.1}) {
            const string_line over{.nut_x = 0 * mm, .nut_z = crest * mm, .saddle_x = 600 * mm, .saddle_z = saddle * mm};
            const lengths z(18, crest * mm);
            for (std::size_t n = 0; n < 18; ++n) {
                const auto hard = hardest_clean_pluck(over, x, z, n, 120 * mm, 70 * N);
                REQUIRE(hard);
                CHECK(hard->fret_number() == static_cast<int>(n) + 1);
                CHECK(plucked_clearance(over, x, z, n, 120 * mm, 0.5 * hard->displacement)->fret_number() ==
                      static_cast<int>(n) + 1);
            }
        }
    }
}

TEST_CASE("under the plucked place, and as far from the other end, a string dips by all that it was pulled") {
    for (const double at : {480.0, 120.0}) { // 120 mm from the saddle, 120 mm from the nut
        const lengths x{at * mm}, z{1 * mm};
        const auto gap = least_clearance(s, x, z, 0)->gap;
        CHECK(near::relative(hardest_clean_pluck(s, x, z, 0, 120 * mm, 70 * N)->displacement, gap, 1e-12));
    }
    // Half way both triangles, with their corners at 120 and 480 mm, have come down to 300/480.
    const lengths x{300 * mm}, z{1 * mm};
    CHECK(near::relative(hardest_clean_pluck(s, x, z, 0, 120 * mm, 70 * N)->displacement * 0.625,
                         least_clearance(s, x, z, 0)->gap, 1e-12));
}

TEST_CASE("plucked beyond its middle a string sweeps what it sweeps plucked as far from the other end") {
    // d'Alembert's parallelogram has its corners at p and l - p, whichever of them is plucked.
    for (const double p : {20.0, 120.0, 250.0}) {
        for (const double at : {30.0, 120.0, 300.0, 415.0, 570.0}) {
            const lengths x{at * mm}, z{1 * mm};
            const auto near_saddle = hardest_clean_pluck(s, x, z, 0, p * mm, 70 * N),
                       near_nut = hardest_clean_pluck(s, x, z, 0, (600 - p) * mm, 70 * N);
            CHECK(near::relative(near_nut->displacement, near_saddle->displacement, 1e-12));
            CHECK(near::relative(near_nut->pull, near_saddle->pull, 1e-12));
            // The higher of the triangles with corners at p and l - p, at this crest.
            const double q = 600 - at;
            const auto triangle = [&](double corner) { return q < corner ? q / corner : (600 - q) / (600 - corner); };
            const double reach = std::max(triangle(p), triangle(600 - p));
            CHECK(near::relative(near_nut->displacement * reach, least_clearance(s, x, z, 0)->gap, 1e-12));
            CHECK(near::relative(plucked_clearance(s, x, z, 0, (600 - p) * mm, 0.4 * mm)->gap,
                                 plucked_clearance(s, x, z, 0, p * mm, 0.4 * mm)->gap, 1e-12));
        }
    }
}

TEST_CASE("a note that frets out has no clean pluck") {
    auto z = crests;
    z[9] = 3 * mm;
    const auto hard = hardest_clean_pluck(s, frets(), z, 8, 120 * mm, 70 * N);
    CHECK(hard->displacement == 0 * mm);
    CHECK(hard->pull == 0 * N);
    CHECK(hard->fret_number() == 10);
    CHECK_FALSE(hardest_clean_pluck(s, frets(), crests, 18, 120 * mm, 70 * N));
}

TEST_CASE("a tighter string takes a harder pluck, a higher saddle too") {
    const auto x = frets();
    const auto base = hardest_clean_pluck(s, x, crests, 3, 120 * mm, 70 * N);
    CHECK(near::relative(hardest_clean_pluck(s, x, crests, 3, 120 * mm, 140 * N)->pull, 2 * base->pull, 1e-12));
    auto high = s;
    high.saddle_z = 9 * mm;
    CHECK(hardest_clean_pluck(high, x, crests, 3, 120 * mm, 70 * N)->displacement > base->displacement);
}

TEST_CASE("a dual carries the derivative") {
    using D = dual<double, 1>;
    std::vector<length<D>> x, z(18, length<D>(1 * mm));
    for (const auto& at : frets()) { x.push_back(over<D>(at)); }
    auto line = over<D>(s);
    line.saddle_z = length<D>::from_value(D::variable(0.008, 0));
    const auto room = [](double saddle_z) {
        auto l = s;
        l.saddle_z = saddle_z * metre;
        return hardest_clean_pluck(l, frets(), crests, 2, 120 * mm, 70 * N)->displacement.value();
    };
    const double h = 1e-6;
    CHECK(near::relative(hardest_clean_pluck(line, x, z, 2, 120 * mm, 70 * N)->displacement.value().partial[0],
                         (room(0.008 + h) - room(0.008 - h)) / (2 * h), 1e-6));
}

TEST_CASE("bad input is named") {
    CHECK_THROWS_WITH((void)hardest_clean_pluck(s, frets(), crests, 12, 300 * mm, 70 * N),
                      "from_saddle must be less than the speaking length: nobody plucks behind the pressed fret.");
    CHECK_THROWS_AS((void)hardest_clean_pluck(s, frets(), crests, 12, 100 * mm, 0 * N), invalid_input);
    CHECK_THROWS_AS((void)plucked_clearance(s, frets(), crests, 19, 100 * mm, 1 * mm), invalid_input);
    CHECK_THROWS_AS((void)pluck_displacement(1 * N, 700 * mm, 600 * mm, 70 * N), invalid_input);
}

TEST_CASE("pluck, place and crests are looked at") {
    const char* const finite = " is not a number; it must be a finite number.";
    const auto nan = std::nan("");
    CHECK_THROWS_WITH((void)pluck_displacement(nan * N, 100 * mm, 600 * mm, 70 * N),
                      ("pull" + std::string(finite)).c_str());
    CHECK_THROWS_WITH((void)pluck_displacement(1 * N, 100 * mm, 0 * mm, 70 * N),
                      "speaking is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)pluck_displacement(1 * N, 0 * mm, 600 * mm, 70 * N),
                      "from_saddle is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)pluck_displacement(1 * N, 100 * mm, 600 * mm, 0 * N),
                      "tension is 0 N; it must be more than 0 N.");
    CHECK_THROWS_WITH((void)hardest_clean_pluck(s, lengths{300 * mm, 200 * mm}, lengths(2), 0, 100 * mm, 70 * N),
                      "crest_x[1] must lie beyond the fret before it and before the saddle.");
    CHECK_THROWS_WITH((void)hardest_clean_pluck(s, frets(), crests, 0, 0 * mm, 70 * N),
                      "from_saddle is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)plucked_clearance(s, frets(), crests, 0, 100 * mm, nan * mm),
                      ("displacement" + std::string(finite)).c_str());
}
