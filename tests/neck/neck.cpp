#include <tautline/neck/neck.hpp>

#include <limits>

#include "demo_neck.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {
template <class Spoil>
std::string wrong(Spoil spoil) {
    neck n = demo::neck_with_rod();
    spoil(n);
    const auto found = validate(n, "neck");
    return found.empty() ? std::string() : found.front().sentence();
}
} // namespace

TEST_CASE("what is wrong with a neck is named") {
    CHECK(wrong([](neck&) {}).empty());
    CHECK(wrong([](neck& n) { n.stations.resize(1); }) ==
          "neck.stations must be at least two sections, one at the nut and one at the joint.");
    CHECK(wrong([](neck& n) { n.stations.clear(); }) != "");
    CHECK(wrong([](neck& n) { n.stations[1].x = 0 * mm; }) ==
          "neck.stations[1].x must be further from the nut than the station before it.");
    CHECK(wrong([](neck& n) { n.stations[0].x = 5 * mm; }) == "neck.stations[0].x must be at the nut (0) or before it.");
    CHECK(wrong([](neck& n) { n.board_modulus = -1 * GPa; }).find("neck.board_modulus is -1000 MPa") == 0);
    CHECK(wrong([](neck& n) { n.back_modulus = std::nan("") * GPa; }).find("neck.back_modulus") == 0);
    CHECK(wrong([](neck& n) { n.back_modulus = std::numeric_limits<double>::infinity() * GPa; }) != "");
    CHECK(wrong([](neck& n) { n.joint = 361 * mm; }) == "neck.joint must not lie past the last station.");
    CHECK(wrong([](neck& n) { n.joint = 0 * mm; }) != "");
    CHECK(wrong([](neck& n) { n.creep_factor = 0.9; }) != "");
    CHECK(wrong([](neck& n) { n.pure_bending_factor = 0; }) != "");
    CHECK(wrong([](neck& n) { n.joint_stiffness = 0 * N_m_per_rad; }) != "");
    CHECK(wrong([](neck& n) { n.board_strain = 0.5; }) != "");
    CHECK(wrong([](neck& n) {
              n.set = {{.x = 10 * mm, .z = 0 * mm}, {.x = 10 * mm, .z = 0 * mm}};
          }) == "neck.set[1].x must be further from the nut than the mark before it.");
}

TEST_CASE("a joint nearer than the first fret, tangs deeper than the board, fret places out of order") {
    const auto slots =
        fret_slots{.interference = 0.05 * mm, .share = 0.2, .tang_depth = 2 * mm, .places = {35 * mm, 70 * mm}};
    CHECK(wrong([&](neck& n) { n.slots = slots; }).empty());
    CHECK(wrong([&](neck& n) {
              n.slots = slots;
              n.joint = 30 * mm;
          }) == "neck.joint must not be nearer than the first fret.");
    CHECK(wrong([&](neck& n) {
              n.slots = slots;
              n.slots->tang_depth = 7 * mm;
          }) == "neck.slots.tang_depth must be less than the board's thickness.");
    CHECK(wrong([&](neck& n) {
              n.slots = slots;
              n.slots->places[1] = 35 * mm;
          }) != "");
}

TEST_CASE("a rod must run inside the neck") {
    CHECK(wrong([](neck& n) { n.rod->z_ends = -22 * mm; }) == "neck.rod.z_ends must keep the whole rod inside the neck.");
    CHECK(wrong([](neck& n) { n.rod->dip = 10 * mm; }) == "neck.rod.z_ends must keep the whole rod inside the neck.");
    CHECK(wrong([](neck& n) { n.rod->x_to = n.rod->x_from; }) == "neck.rod.x_to must be further from the nut than x_from.");
}

TEST_CASE("a set's marks: straight between them, level outside") {
    const std::vector<permanent_bow_mark> marks{
        {.x = 10 * mm, .z = 1 * mm}, {.x = 30 * mm, .z = -1 * mm}, {.x = 40 * mm, .z = 0 * mm}};
    const auto at = [&](double x) { return kernel::permanent_bow_at<double>(marks, x * mm); };
    CHECK(near::within(at(0), 1 * mm, 1e-12 * mm));
    CHECK(near::within(at(20), 0 * mm, 1e-12 * mm));
    CHECK(near::within(at(30), -1 * mm, 1e-12 * mm));
    CHECK(near::within(at(35), -0.5 * mm, 1e-12 * mm));
    CHECK(near::within(at(99), 0 * mm, 1e-12 * mm));
    CHECK(kernel::permanent_bow_at<double>({}, 5 * mm) == 0 * mm);
}

TEST_CASE("between two stations every measure goes in proportion, the arc as a cone's radius") {
    const neck_station a{
        .x = 0 * mm, .half_width = 20 * mm, .board_thickness = 4 * mm, .board_arc = 5 * per_metre, .back_depth = 14 * mm};
    const neck_station b{
        .x = 400 * mm, .half_width = 28 * mm, .board_thickness = 8 * mm, .board_arc = 2 * per_metre, .back_depth = 18 * mm};
    const auto s = kernel::station_between<double>(a, b, 0.25);
    CHECK(near::within(s.x, 100 * mm, 1e-12 * mm));
    CHECK(near::within(s.half_width, 22 * mm, 1e-12 * mm));
    CHECK(near::within(s.board_thickness, 5 * mm, 1e-12 * mm));
    CHECK(near::within(s.back_depth, 15 * mm, 1e-12 * mm));
    // Radii of 200 mm and 500 mm: 275 mm a quarter of the way.
    CHECK(near::relative(s.board_arc, 1 / 0.275 * per_metre, 1e-12));
}
