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

TEST_CASE(
    "what a bay keeps between empty slots: by shear lag, by hand; more where slots are far apart, shallow, or filled") {
    fret_slots slots{.interference = 0 * mm, .tang_depth = 2 * mm, .places = {36 * mm, 54 * mm}};
    CHECK(layer_share(slots, 18 * mm) == 1); // the default: tight
    slots.bearing = 0;
    // lambda = 1.06 * 2 mm * sqrt(16) = 8.48 mm; u = 36 / 16.96 = 2.12264, tanh u = 0.97174, 1 - tanh(u)/u = 0.54220.
    CHECK(near::within(layer_share(slots, 36 * mm), 0.54220, 1e-5));
    for (const double p : {5.0, 18.0, 36.0}) {
        const double u = p / (2 * 1.06 * 2 * std::sqrt(16.0));
        CHECK(near::relative(layer_share(slots, p * mm), 1 - std::tanh(u) / u, 1e-12));
        CHECK(layer_share(slots, p * mm) < layer_share(slots, 1.1 * p * mm));
    }
    CHECK(near::relative(kernel::layer_share(slots, std::size_t{0}), layer_share(slots, 36 * mm), 1e-12));
    CHECK(near::relative(kernel::layer_share(slots, std::size_t{1}), layer_share(slots, 18 * mm), 1e-12));
    const double empty = layer_share(slots, 18 * mm);
    slots.bearing = 0.25; // a straight line from empty to tight
    CHECK(near::relative(layer_share(slots, 18 * mm), empty + 0.25 * (1 - empty), 1e-12));
    slots.tang_depth = 3 * mm;
    CHECK(layer_share(slots, 18 * mm) < empty + 0.25 * (1 - empty));
    CHECK_THROWS_AS((void)layer_share(slots, 0 * mm), invalid_input);
    slots.bearing = 1.01;
    CHECK_THROWS_WITH((void)layer_share(slots, 18 * mm), "slots.bearing is 1.01; it must be at least 0 and at most 1.");
}

TEST_CASE("empty slots: a prism's section by hand, layer by layer; past the last fret it is the whole one") {
    // A flat board 44 wide, 6 thick, 18 GPa, on a square back 15 deep, 10 GPa; slots 2 deep, 20 apart.
    neck n;
    for (const double x : {0.0, 300.0}) {
        neck_station s;
        s.x = x * mm;
        s.half_width = 22 * mm;
        s.board_thickness = 6 * mm;
        s.back_depth = 15 * mm;
        s.profile = {{.y = -22 * mm, .depth = 15 * mm}, {.y = 0 * mm, .depth = 15 * mm}, {.y = 22 * mm, .depth = 15 * mm}};
        n.stations.push_back(s);
    }
    n.board_modulus = 18 * GPa;
    n.back_modulus = 10 * GPa;
    n.pure_bending_factor = 1;
    n.joint = 300 * mm;
    n.slots = fret_slots{.interference = 0 * mm, .tang_depth = 2 * mm, .bearing = 0};
    for (int k = 1; k <= 10; ++k) { n.slots->places.push_back(20.0 * k * mm); }
    const auto by_hand = [](double top_gpa) {
        // Strips of 2, 4 and 15 mm from the top down: width * modulus, middle, height; N, mm.
        const double ew[] = {44 * top_gpa * 1000, 44 * 18000.0, 44 * 10000.0}, z[] = {-1, -4, -13.5}, h[] = {2, 4, 15};
        double ea = 0, es = 0, ej = 0;
        for (int i = 0; i < 3; ++i) {
            ea += ew[i] * h[i];
            es += ew[i] * h[i] * z[i];
            ej += ew[i] * h[i] * (h[i] * h[i] / 12 + z[i] * z[i]);
        }
        return std::pair{es / ea, ej - es * es / ea}; // mm, N mm^2
    };
    const double u = 20 / (2 * 1.06 * 2 * 4), share = 1 - std::tanh(u) / u;
    for (const double x : {5.0, 50.0, 190.0}) {
        const auto p = section_at(n, x * mm);
        CHECK(near::relative(p.bending_rigidity, by_hand(18 * share).second * N_mm2, 1e-9));
        CHECK(near::within(p.neutral_axis, by_hand(18 * share).first * mm, 1e-9 * mm));
    }
    const double lost = 1 - by_hand(18 * share).second / by_hand(18).second;
    CHECK(lost > 0.12);
    CHECK(lost < 0.20);
    CHECK(near::relative(section_at(n, 250 * mm).bending_rigidity, by_hand(18).second * N_mm2, 1e-9));
    // The beam sees it in every bay: a bow under one string is that of two prisms end to end.
    const std::vector<string_pull> pull{{.pull = 100 * N, .z_nut = 2 * mm, .z_saddle = 12 * mm, .x_saddle = 640 * mm}};
    const auto limp = bend(make_beam(n, 257), pull);
    n.slots->bearing = 1;
    const auto tight = bend(make_beam(n, 257), pull);
    n.slots.reset();
    const auto without = bend(make_beam(n, 257), pull);
    CHECK(tight.nut_rise() == without.nut_rise()); // today's answer
    CHECK(limp.nut_rise() > 1.05 * tight.nut_rise());
    CHECK(limp.nut_rise() < tight.nut_rise() / (1 - lost));
}
