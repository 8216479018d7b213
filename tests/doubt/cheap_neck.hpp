#pragma once
/// @file
/// A neck in a few lines, for thousands of simulated jobs: its bow goes as load over stiffness, its heights by straight
/// lines. Millimetres and shares.

#include <array>
#include <cmath>
#include <cstdint>
#include <vector>

#include <tautline/doubt/fit_adjustment.hpp>
#include <tautline/doubt/normal_deviate.hpp>

namespace cheap {

using namespace tautline;

/// Simulated jobs: fewer where the optimiser is off.
#if defined(__OPTIMIZE__) && !defined(__SANITIZE_ADDRESS__)
inline constexpr std::uint64_t jobs = 2000;
#else
inline constexpr std::uint64_t jobs = 100;
#endif

/// Inputs: logarithm of the stiffness, set, rod, saddle bass, saddle treble, board line, nut, crown.
inline const std::vector<double> input_doubts{0.15, 0.04, 0.05, 0.06, 0.06, 0.12, 0.02, 0.01};
/// Readings: relief at pitch, relief slack, relief a turn on, heights over fret 12 bass and treble, over fret 5 bass, over
/// fret 1, board line by straightedge.
inline const std::vector<double> reading_doubts{0.02, 0.02, 0.02, 0.025, 0.025, 0.025, 0.015, 0.1};

template <class R, std::size_t N>
dual<R, N> bow(const dual<R, N>& load, const dual<R, N>& log_stiffness) {
    return load / exp(log_stiffness);
}

/// What the neck says of the readings at a state, with slopes along directions.
template <class R>
basic_modelled<R> modelled(std::span<const R> t, const basic_matrix<R>& along) {
    using D = dual<R, 8>;
    constexpr std::size_t n = 8;
    std::array<D, n> x;
    const std::array<R, n> as_read{0, R(0.10L), R(0.3L), 17, R(16.4L), R(12.5L), R(1.3L), R(0.9L)};
    for (std::size_t i = 0; i < n; ++i) {
        x[i] = D(as_read[i] + t[i]);
        for (std::size_t c = 0; c < along.columns(); ++c) { x[i].partial[c] = along(i, c); }
    }
    const D &stiffness = x[0], &set = x[1], &rod = x[2], &bass = x[3], &treble = x[4], &line = x[5], &nut = x[6],
            &crown = x[7];
    const D pitch = bow<R>(D(R(0.35L)) - rod, stiffness), slack = bow<R>(-rod, stiffness);
    const D turned = bow<R>(D(R(0.10L)) - rod, stiffness);
    const auto height = [&](const D& saddle, R share, R dip) {
        return nut * (R(1) - share) + (saddle - line) * share + (pitch + set) * dip - crown;
    };
    const std::array<D, n> h{pitch + set,
                             slack + set,
                             turned + set,
                             height(bass, R(0.5L), R(0.3L)),
                             height(treble, R(0.5L), R(0.3L)),
                             height(bass, R(0.25L), R(0.9L)),
                             height(bass, R(0.056L), R(0.4L)),
                             line - (pitch + set) * R(0.5L)};
    basic_modelled<R> m{std::vector<R>(n), basic_matrix<R>(n, along.columns())};
    for (std::size_t k = 0; k < n; ++k) {
        m.values[k] = h[k].value;
        for (std::size_t c = 0; c < along.columns(); ++c) { m.slopes(k, c) = h[k].partial[c]; }
    }
    return m;
}
inline constexpr auto model = [](std::span<const double> t, const matrix& along) { return modelled<double>(t, along); };

inline fit_problem problem(std::vector<double> readings) {
    return {covariance_root(matrix::squares(input_doubts)),
            reading_root(matrix::squares(reading_doubts)),
            std::move(readings),
            {},
            {}};
}
inline std::vector<double> predicted(const std::vector<double>& t) {
    return modelled<double>(std::span<const double>(t), matrix(t.size(), 0)).values;
}
/// A job drawn by its number: where the inputs are off, and readings of what is.
struct job {
    std::vector<double> truth{}, readings{};
};
inline job drawn(std::uint64_t number, std::uint64_t seed = 1) {
    job j;
    for (std::size_t i = 0; i < input_doubts.size(); ++i) {
        j.truth.push_back(input_doubts[i] * kernel::normal_deviate(seed, number, i));
    }
    j.readings = predicted(j.truth);
    for (std::size_t k = 0; k < j.readings.size(); ++k) {
        j.readings[k] += reading_doubts[k] * kernel::normal_deviate(seed, number, 100 + k);
    }
    return j;
}

/// The slopes at what was read.
inline tautline::matrix slopes() {
    const std::vector<double> zero(8);
    return modelled<double>(std::span<const double>(zero), tautline::matrix::identity(8)).slopes;
}
/// The straightened model with a misfit of its readings.
inline tautline::linear_adjustment adjusted(std::vector<double> misfit) {
    using namespace tautline;
    return {covariance_root(matrix::squares(input_doubts)), reading_root(matrix::squares(reading_doubts)), slopes(),
            std::move(misfit)};
}

} // namespace cheap
