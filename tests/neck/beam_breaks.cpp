#include <tautline/neck/beam_breaks.hpp>

#include "demo_neck.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

std::vector<basic_beam_break<double>> breaks_of(const neck& n) {
    std::vector<basic_beam_break<double>> breaks;
    kernel::find_breaks(n, breaks);
    return breaks;
}

} // namespace

TEST_CASE("a plain neck has its ends and its stations between them, in order") {
    const auto breaks = breaks_of(demo::plain_neck());
    REQUIRE(breaks.size() >= 2);
    CHECK(breaks.front().x == 0 * mm);
    CHECK(breaks.back().x == length<>(demo::plain_neck().joint));
    for (std::size_t i = 1; i < breaks.size(); ++i) { CHECK(breaks[i - 1].not_after(breaks[i])); }
}

TEST_CASE("a rod begins and ends at breaks of its own and reaches between them only") {
    const neck n = demo::neck_with_rod();
    const auto breaks = breaks_of(n);
    std::size_t reached = 0;
    for (std::size_t i = 1; i < breaks.size(); ++i) {
        if (breaks[i - 1].x == breaks[i].x) { continue; }
        const auto middle = (breaks[i - 1].x + breaks[i].x) / 2.0;
        const bool inside = middle > n.rod->x_from && middle < n.rod->x_to;
        CHECK(kernel::rod_reaches(n.rod, breaks[i - 1], breaks[i]) == inside);
        reached += inside;
    }
    CHECK(reached > 0);
}

TEST_CASE("two things that begin at one place keep a break each; a kink there needs none") {
    neck n = demo::neck_with_rod();
    const std::size_t before = breaks_of(n).size();
    n.set = {{.x = n.rod->x_from, .z = 0.1 * mm}}; // a kink where the rod begins
    CHECK(breaks_of(n).size() == before);
    n.set = {{.x = n.rod->x_from + 1 * mm, .z = 0.1 * mm}};
    CHECK(breaks_of(n).size() == before + 1);
    n.set.clear();
    // The channel begins and ends where the rod does.
    const auto both = breaks_of(n);
    n.inserts.clear();
    CHECK(both.size() == breaks_of(n).size() + 2);
    for (std::size_t i = 1; i < both.size(); ++i) { CHECK(both[i - 1].not_after(both[i])); }
}

TEST_CASE("what begins at the nut or ends at the joint needs no break there, and reaches from end to end") {
    neck n = demo::plain_neck();
    const std::size_t plain = breaks_of(n).size();
    n.rod = truss_rod{.x_from = 0 * mm, .x_to = n.joint, .z_ends = -13.5 * mm, .dip = 0 * mm};
    const auto breaks = breaks_of(n);
    CHECK(breaks.size() == plain);
    for (std::size_t i = 1; i < breaks.size(); ++i) { CHECK(kernel::rod_reaches(n.rod, breaks[i - 1], breaks[i])); }
    n.rod->x_from = 1 * mm;
    CHECK(breaks_of(n).size() == plain + 1);
    n.rod->x_to = n.joint - 1 * mm;
    CHECK(breaks_of(n).size() == plain + 2);
}
