#pragma once
/// @file
/// A whole solve with everything, over any kind of number, against the same in double.

#include <cmath>

#include <doctest/doctest.h>

#include <tautline/core/leaves.hpp>

#include "demo.hpp"

namespace number_types {

using namespace tautline;
using namespace tautline::units;

inline instrument everything() {
    auto i = demo::four_course();
    i.feet = bridge_feet{
        .ahead = 5 * mm, .behind = 12 * mm, .top_slope = 0 * deg, .bass_foot = -30 * mm, .treble_foot = 30 * mm};
    i.soundboard = soundboard{.sink_stiffness = 400 * N_per_mm,
                              .turn_stiffness = 3000 * N_m_per_rad,
                              .saddle_ahead = 0 * mm,
                              .saddle_height = 0 * mm};
    i.neck.rod = truss_rod{.x_from = 10 * mm, .x_to = 270 * mm, .z_ends = -12 * mm, .dip = 3 * mm, .free_in_channel = true};
    i.neck.rod_pull = 200 * N;
    return i;
}

/// The largest difference from `want`, each as a share of its size or of 1 (SI).
template <class R>
double worst(const std::vector<double>& want, double floor) {
    const auto s = solve(over<R>(strung_instrument{everything(), demo::unison_pairs()}));
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
/// Every number of that solve in double.
inline std::vector<double> in_double() {
    std::vector<double> want;
    const auto s = solve(strung_instrument{everything(), demo::unison_pairs()});
    for_each_leaf(s, [&](std::string_view, const auto& x) { want.push_back(number_of(x)); });
    return want;
}

} // namespace number_types
