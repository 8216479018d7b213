#include "corners.hpp"

#include <tautline/core/units.hpp>
#include <tautline/neck/calibration.hpp>
#include <tautline/neck/creep.hpp>
#include <tautline/neck/loaded_frets.hpp>
#include <tautline/neck/moisture.hpp>
#include <tautline/neck/rod_setting.hpp>
#include <tautline/neck/second_order.hpp>
#include <tautline/neck/settling.hpp>
#include <tautline/neck/wanted.hpp>
#include <tautline/neck/wood.hpp>

#include "demo_neck.hpp"

using namespace tautline;
using namespace tautline::units;
using corners::each_number;
using corners::everywhere;

namespace {

/// What can be told of a bent neck, all in one list.
std::vector<double> told_of(const neck_beam& beam, const std::vector<string_pull>& pulls, force<> rod) {
    const auto bowed = bend(beam, pulls, rod);
    std::vector<double> all{bowed.nut_rise().value(), second_order_growth(beam, pulls, rod)};
    for (const double x : {0.0, 0.1, 0.3, 0.5}) { all.push_back(deflection_at(bowed, x * metre).value()); }
    for (const auto& c : loaded_crests(bowed, demo::crests())) { all.push_back(c.z.value()); }
    all.push_back(relief_from_load(bowed, demo::crests(), 0, 12).value());
    return all;
}
/// The demo neck's rod as it may be set.
constexpr rod_screw screw{.diameter = 5 * mm, .modulus = 200 * GPa, .lead = 0.8 * mm, .anchor_give = 5 * mm};

} // namespace

TEST_CASE("corners: a neck bends, or says why not, wherever one of its numbers lies") {
    for (const neck& n : {demo::neck_with_rod(), demo::everything()}) {
        each_number("make_beam and bend", n,
                    [](const neck& at) { return told_of(make_beam(at, 17), demo::strings(60), 100 * N); });
        each_number("section_at", n, [](const neck& at) { return section_at<double>(at, 100 * mm); });
    }
}
TEST_CASE("corners: under any pull, at any height, with any pull of the rod") {
    const auto beam = make_beam(demo::neck_with_rod());
    everywhere<force<>, length<>, length<>, length<>>("bend", [&](auto pull, auto nut, auto saddle, auto x) {
        return told_of(beam, {{.pull = pull, .z_nut = nut, .z_saddle = saddle, .x_saddle = x}}, 0 * N);
    });
    everywhere<force<>>("rod", [&](auto pull) { return told_of(beam, demo::strings(), pull); });
    everywhere<length<>>("deflection_at", [&](auto x) { return deflection_at<double>(bend(beam, demo::strings()), x); });
}
TEST_CASE("corners: what is wanted of a rod, of strings, of an insert; moduli from measurements") {
    const auto beam = make_beam(demo::neck_with_rod());
    const auto c = demo::relief_from_first_to_joint();
    everywhere<length<>, force<>>("rod_pull_for_relief", [&](auto relief, auto most) {
        const auto a = rod_pull_for_relief<double>(beam, c, relief, most);
        return std::vector<double>{a.pull.value(), a.relief.gap.value()};
    });
    everywhere<length<>>("heaviest_strings", [&](auto relief) {
        const auto h = heaviest_strings<double>(beam, c, relief, 100 * N);
        return h ? std::vector<double>{h->pull.value()} : std::vector<double>{};
    });
    everywhere<force<>>("relief_under", [&](auto rod) { return relief_under<double>(beam, c, rod).gap; });
    everywhere<force<>>("rod_turns", [&](auto pull) { return rod_turns<double>(beam, screw, pull); });
    everywhere<double>("rod_pull_from_turns", [&](auto turns) { return rod_pull_from_turns<double>(beam, screw, turns); });
    each_number("rod_screw", screw, [&](const rod_screw& at) { return rod_turns<double>(beam, at, 500 * N); });
    each_number("insert", demo::everything().inserts[1], [&](const insert& at) {
        const auto e = effect_of<double>(demo::neck_with_rod(), at, demo::relief_from_first_to_joint(), 0 * N);
        return std::vector<double>{e.before.gap.value(), e.after.gap.value(), e.nut_rise_after.value(), e.stiffer};
    });
    everywhere<length<>, length<>>("calibrate_moduli", [&](auto change, auto doubt) {
        const auto f = calibrate_moduli<double>(demo::neck_with_rod(), c, change, doubt, 0 * N, 9);
        return std::vector<double>{f.factor, f.uncertainty, f.predicted.value()};
    });
}
TEST_CASE("corners: rods by their screw, woods by their tests, boards by their air") {
    everywhere<moment<>, double, length<>>("rod_pull_from_torque",
                                           [](auto t, auto k, auto d) { return rod_pull_from_torque(t, k, d); });
    everywhere<force<>, double, length<>>("torque_for_rod_pull",
                                          [](auto f, auto k, auto d) { return torque_for_rod_pull(f, k, d); });
    everywhere<force<>>("torque_pull_uncertainty", [](auto f) { return torque_pull_uncertainty(f); });
    everywhere<force<>, length<>>("rod_stress", [](auto f, auto d) { return rod_stress(f, d); });
    everywhere<force<>, length<>, stress<>>("rod_stress_share",
                                            [](auto f, auto d, auto s) { return rod_stress_share(f, d, s); });
    everywhere<double, double>("movement_from_shrinkage", [](auto s, auto f) { return movement_from_shrinkage(s, f); });
    everywhere<stress<>>("as_bending_tests_give",
                         [](auto e) { return as_bending_tests_give(modulus_method::tap_tone, e); });
    const fret_slots loose{.interference = 0 * mm, .tang_depth = 2 * mm, .bearing = 0};
    everywhere<length<>>("layer_share", [&](auto bay) { return layer_share<double>(loose, bay); });
    each_number("fret_slots", loose, [](const fret_slots& at) { return layer_share(at, 20 * mm); });
    everywhere<stress<>>("is_asked_about",
                         [](auto e) { return static_cast<int>(woods::is_asked_about(*woods::find_wood("wenge"), e)); });
    everywhere<stress<>>("question_about", [](auto e) {
        return static_cast<int>(woods::question_about(*woods::find_wood("wenge"), e).size());
    });
    everywhere<duration<>>("creep_factor_after", [](auto t) { return creep_factor_after(t); });
    everywhere<length<>, double>("settling_time",
                                 [](auto l, auto d) { return settling_time(l, d * (1 * mm2) / (1 * second)); });
    everywhere<duration<>, duration<>>("share_settled", [](auto t, auto tau) { return share_settled(t, tau); });
    everywhere<stress<>, stress<>, double>(
        "modulus_at", [](auto dry, auto green, auto m) { return modulus_at(dry, green, m * percent_mc); });
    everywhere<length<>, force<>, length<>, length<>>(
        "modulus_from_bending_test",
        [](auto span, auto load, auto d, auto w) { return modulus_from_bending_test(span, load, d, w, 10 * mm); });
    everywhere<frequency<>, length<>, length<>, density<>>(
        "modulus_from_tap_tone", [](auto f, auto l, auto t, auto rho) { return modulus_from_tap_tone(f, l, t, rho); });
    everywhere<double, double>("equilibrium_moisture", [](auto t, auto h) {
        return equilibrium_moisture(climate{.temperature = t * celsius, .humidity = h * percent_rh}).in_unit();
    });
    everywhere<length<>, double, double>(
        "movement", [](auto l, auto k, auto m) { return movement(l, k, m * percent_mc, 8 * percent_mc); });
    everywhere<double, double>("board_strain",
                               [](auto a, auto b) { return board_strain(a, b, 6 * percent_mc, 9 * percent_mc); });
    everywhere<stress<>, length<>, length<>, length<>>("rectangle_sums", [](auto e, auto w, auto top, auto h) {
        const auto s = rectangle_sums(e, w, top, h);
        return std::vector<double>{s.ea.value(), s.es.value(), s.ej.value()};
    });
    everywhere<double>("superellipse_shape", [](auto k) {
        const auto s = superellipse_shape(k);
        return std::vector<double>{s.area, s.first, s.second};
    });
    everywhere<length<>>("where_to_level", [](auto l) { return static_cast<int>(where_to_level(l)); });
}
