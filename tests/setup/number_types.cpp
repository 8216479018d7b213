// A whole solve over every kind of number; packs have a test of their own.
#include <cmath>

#include <boost/multiprecision/cpp_bin_float.hpp>

#include <tautline/core/leaves.hpp>

#include "demo.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

instrument everything() {
    auto i = demo::four_course();
    i.feet = bridge_feet{.ahead = 5 * mm, .behind = 12 * mm, .bass_foot = -30 * mm, .treble_foot = 30 * mm};
    i.soundboard = soundboard{.sink_stiffness = 400 * N_per_mm, .turn_stiffness = 3000 * N_m_per_rad};
    i.neck.rod = truss_rod{.x_from = 10 * mm, .x_to = 270 * mm, .z_ends = -12 * mm, .dip = 3 * mm, .free_in_channel = true};
    i.neck.rod_pull = 200 * N;
    return i;
}

/// The largest difference from `want`, each as a share of its size or of 1 (SI).
template <class R>
double worst(const std::vector<double>& want, double floor) {
    const auto s = solve(over<R>(everything()), over<R>(demo::unison_pairs()));
    double most = 0;
    std::size_t i = 0;
    for_each_leaf(s, [&](std::string_view path, const auto& x) {
        const double w = want.at(i++);
        if (path.ends_with(".fret")) { return; } // which fret is nearest may turn on the last digit
        const double error = std::abs(static_cast<double>(value_of(number_of(x))) - w) / (std::abs(w) + floor);
        most = error <= most ? most : error; // not a number counts
    });
    CHECK(i == want.size());
    return most;
}

} // namespace

TEST_CASE("a whole solve in float, long double, duals of duals and fifty digits says what double says") {
    std::vector<double> want;
    const auto s = solve(everything(), demo::unison_pairs());
    for_each_leaf(s, [&](std::string_view, const auto& x) { want.push_back(number_of(x)); });
    CHECK(worst<float>(want, 1e-2) < 1e-2); // intonation in cents is a difference of lengths
    CHECK(worst<long double>(want, 1e-4) < 1e-9);
    CHECK(worst<dual<dual<double, 1>, 1>>(want, 1e-4) == 0);
    CHECK(worst<boost::multiprecision::cpp_bin_float_50>(want, 1e-4) < 1e-9);
}
