// Every answer of this folder over every number type: the same number as in double, to what the type carries.

#include <algorithm>
#include <vector>

#include <tautline/action/coupling.hpp>
#include <tautline/action/height_plan.hpp>
#include <tautline/action/moved_ends.hpp>
#include <tautline/action/neck_reset.hpp>
#include <tautline/action/object_clearance.hpp>
#include <tautline/action/pluck.hpp>
#include <tautline/action/saddle_arc.hpp>
#include <tautline/action/straight_saddle.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

template <class R>
double plain(const R& x) {
    return static_cast<double>(value_of(x));
}
template <class U, class R>
double plain(const boost::units::quantity<U, R>& q) {
    return plain(q.value());
}

template <class R>
std::vector<double> answers() {
    const sounding_string string{.mass_per_length = 0.8 * g_per_m,
                                 .open_pitch = 293.66 * Hz,
                                 .axial_stiffness = 20000 * N,
                                 .bending_stiffness = 1.5e-4 * N_m2};
    const string_line line{.nut_x = 0 * mm,
                           .nut_z = 1.4 * mm,
                           .saddle_x = 562 * mm,
                           .saddle_z = 6 * mm,
                           .nut_y = -10 * mm,
                           .saddle_y = -20 * mm};
    std::vector<length<R>> x, z, y, tops, wanted;
    for (int n = 1; n <= 15; ++n) {
        x.push_back(over<R>(560 * (1 - std::exp2(-n / 12.0)) * mm));
        z.push_back(over<R>((1 + (n % 3) * 0.02) * mm));
    }
    std::vector<basic_string_line<R>> lines;
    std::vector<R> gains;
    std::vector<stiffness<R>> springs;
    std::vector<force<R>> tensions;
    string_table<compliance<R>> table(5);
    for (int i = 0; i < 5; ++i) {
        const double across = -20 + 10 * i;
        y.push_back(over<R>(across * mm));
        tops.push_back(over<R>((9 + across / 50 - across * across / 400 + (i % 2) * 0.05) * mm));
        wanted.push_back(over<R>((563 - 0.05 * across + (i % 2) * 0.3) * mm));
        lines.push_back(over<R>(line));
        lines.back().saddle_y = over<R>(across * mm);
        lines.back().saddle_z = tops.back();
        gains.push_back(number<R>(0.2L + 0.01L * i));
        springs.push_back(over<R>((20000 + 1000 * i) * N_per_m));
        tensions.push_back(over<R>((70 + i) * N));
    }
    add_shared_give<R>(table, gains, 0.005 * mm_per_N);
    const auto s = over<R>(string);
    const auto l = over<R>(line);
    const auto finger = over<R>(finger_press{});
    const auto arc = saddle_arc<R>(y, tops);
    const auto both = ends_moved_over(s, l, finger, x, z, 1, 12, true);
    const auto object =
        over<R>(flat_object{.x = 500 * mm, .z = 2 * mm, .extent = 20 * mm, .along = 1 * deg, .across = 0.5 * deg});
    const basic_reset_case<R> reset{over<R>(neck_joint{.x = 340 * mm, .z = -6 * mm}), l, x[11], z[11]};
    const auto plan = plan_heights(l, {.x = x[0], .crest = z[0], .wanted = over<R>(0.3 * mm)},
                                   {.x = x[11], .crest = z[11], .wanted = over<R>(2 * mm)}, 0.4 * mm);
    return {plain(height_over(l, x[11], z[11])) * 1e3,
            plain(least_clearance(l, x, z, 3)->gap) * 1e3,
            plain(pressed_at(s, l, finger, x, z, 12).error.cents()),
            plain(*setback_for_fret(s, l, finger, x, z)) * 1e3,
            plain(both->nut_advance) * 1e3,
            plain(plan.slot_change) * 1e3,
            plain(arc.bend),
            plain(arc.worst_off) * 1e3,
            plain(straight_saddle<R>(y, wanted).slant) * 100,
            plain(object_clearance(object, l).least()) * 1e3,
            plain(parallel_tilt<R>(object, lines).across) * 100,
            plain(hardest_clean_pluck(l, x, z, 2, 110 * mm, 70 * N)->pull),
            plain(plucked_clearance(l, x, z, 2, 110 * mm, 0.2 * mm)->gap) * 1e3,
            plain(turn_for_action(reset, over<R>(1.5 * mm)).turn) * 1e3,
            plain(tuning_coupling<R>(table, springs, tensions).at(1, 3)) * 100};
}

template <class R>
void agrees(double tolerance) {
    const auto here = answers<R>(), reference = answers<double>();
    for (std::size_t i = 0; i < reference.size(); ++i) {
        INFO(i);
        CHECK(std::abs(reference[i]) > 1e-3); // each answer says something
        // A setback is where the error of the pitch vanishes: the last digit of a pitch is worth some 1e-14 m of it.
        const double share = i == 3 ? std::max(tolerance, 1e-10) : tolerance;
        CHECK(near::within(here[i], reference[i], share * (1 + std::abs(reference[i]))));
    }
}

} // namespace

TEST_CASE("float, long double and nested duals give the answers of double") {
    agrees<float>(0.02);
    agrees<long double>(1e-9);
    agrees<dual<double, 3>>(1e-12);
    agrees<dual<dual<double, 1>, 2>>(1e-12);
}
