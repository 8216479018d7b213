#pragma once
/// @file
/// The same kernels twice: with quantities as the library has them, and by hand on bare doubles. None is inlined, so that
/// both are compiled on their own and their instructions can be counted.

#include <array>
#include <cmath>
#include <span>
#include <vector>

#include <tautline/action/pluck.hpp>
#include <tautline/neck/bow.hpp>
#include <tautline/strings/tension.hpp>

namespace bench {

using namespace tautline;
using namespace tautline::units;

/// What the kernels work on.
struct kernel_data {
    std::vector<linear_density<double>> mu{};
    std::vector<force<double>> pull{};
    std::vector<double> raw_mu{}, raw_pull{};
    std::vector<length<double>> x{}, z{}, heights{};
    std::vector<double> raw_x{}, raw_z{}, raw_heights{};
    string_line line{.nut_x = 0 * mm, .nut_z = 2 * mm, .saddle_x = 648 * mm, .saddle_z = 7 * mm};
    neck_beam beam{};
    std::vector<string_pull> pulls{};

    kernel_data() {
        for (int i = 0; i < 520; ++i) {
            mu.push_back((0.4 + 0.01 * i) * g_per_m);
            raw_mu.push_back(mu.back().value());
        }
        pull.resize(mu.size());
        raw_pull.resize(mu.size());
        for (int n = 1; n <= 24; ++n) {
            raw_x.push_back(0.648 * (1 - std::exp2(-n / 12.0)));
            raw_z.push_back(1e-3 - 1e-5 * n);
            x.push_back(length<double>::from_value(raw_x.back()));
            z.push_back(length<double>::from_value(raw_z.back()));
        }
        heights.resize(x.size());
        raw_heights.resize(x.size());
        neck n;
        for (const double u : {0.0, 1.0}) {
            n.stations.push_back({.x = 350 * u * mm,
                                  .half_width = (21.5 + 6 * u) * mm,
                                  .board_thickness = 6 * mm,
                                  .board_arc = 3 * per_metre,
                                  .back_depth = (15 + 3 * u) * mm});
        }
        n.board_modulus = 14 * GPa;
        n.back_modulus = 10 * GPa;
        n.joint = 348 * mm;
        make_beam(n, 200, beam);
        pulls.assign(6, {.pull = 110 * N, .z_nut = 1.8 * mm, .z_saddle = 12 * mm, .x_saddle = 630 * mm});
    }
};

// Mersenne's law over a row of strings.
[[gnu::noinline]] inline void tension_units(kernel_data& d) {
    const length<double> l = 640 * mm;
    const frequency<double> f = 110 * Hz;
    for (std::size_t i = 0; i < d.mu.size(); ++i) { d.pull[i] = kernel::tension<double>(d.mu[i], l, f); }
}
[[gnu::noinline]] inline void tension_raw(kernel_data& d) {
    const double l = 0.640, f = 110;
    for (std::size_t i = 0; i < d.raw_mu.size(); ++i) {
        const double speed = l * f * 2.0;
        d.raw_pull[i] = d.raw_mu[i] * (speed * speed);
    }
}

// Heights of a string over its frets.
[[gnu::noinline]] inline void heights_units(kernel_data& d) {
    kernel::heights_over_frets<double>(d.line, d.x, d.z, d.heights);
}
[[gnu::noinline]] inline void heights_raw(kernel_data& d) {
    const double x0 = d.line.nut_x.value(), z0 = d.line.nut_z.value();
    const double slope = (d.line.saddle_z.value() - z0) / (d.line.saddle_x.value() - x0);
    for (std::size_t i = 0; i < d.raw_x.size(); ++i) { d.raw_heights[i] = z0 + slope * (d.raw_x[i] - x0) - d.raw_z[i]; }
}

// The hardest pluck that stays clean, pressed at every fret.
[[gnu::noinline]] inline double pluck_units(kernel_data& d) {
    double sum = 0;
    for (std::size_t n = 0; n < d.x.size(); ++n) {
        sum += kernel::hardest_clean_pluck<double>(d.line, d.x, d.z, n, 0.08 * units::metre, 80 * units::N).pull.value();
    }
    return sum;
}
[[gnu::noinline]] inline double pluck_raw(kernel_data& d) {
    const double x1 = d.line.saddle_x.value(), z1 = d.line.saddle_z.value(), p = 0.08, tension = 80;
    double sum = 0;
    for (std::size_t n = 0; n < d.raw_x.size(); ++n) {
        const double x0 = n == 0 ? d.line.nut_x.value() : d.raw_x[n - 1];
        const double z0 = n == 0 ? d.line.nut_z.value() : d.raw_z[n - 1];
        const double l = x1 - x0, slope = (z1 - z0) / l;
        const double near = l - p < p ? l - p : p, per_near = 1 / near, per_far = 1 / (l - near);
        double displacement = 1e30, fret = 0;
        for (std::size_t i = n; i < d.raw_x.size(); ++i) {
            const double gap = z0 + slope * (d.raw_x[i] - x0) - d.raw_z[i];
            const double a = x1 - d.raw_x[i], b = l - a;
            const double short_side = (b < a ? b : a) * per_near, long_side = (a < b ? b : a) * per_far;
            const double room = (gap < 0 ? 0 : gap) / (long_side < short_side ? long_side : short_side);
            const bool smaller = room < displacement;
            fret = smaller ? static_cast<double>(i + 1) : fret;
            displacement = smaller ? room : displacement;
        }
        sum += displacement / ((l - p) / l * p / tension) + 0 * fret;
    }
    return sum;
}

// The parts of a bow over 200 stations: dead load and a unit rise of the nut, integrated side by side.
[[gnu::noinline]] inline double bow_units(kernel_data& d) {
    const kernel::bow_problem<double> problem{d.beam, kernel::gather<double>(d.pulls), {}, {}};
    return problem.solve().parts.nut_rise.value();
}
[[gnu::noinline]] inline double bow_raw(kernel_data& d) {
    double pull = 0, at_zero = 0, per_x = 0, share_0 = 0, share_x = 0;
    for (const auto& s : d.pulls) {
        const double span = s.x_saddle.value() - s.x_nut.value(), t = s.pull.value();
        const double slope = (s.z_saddle.value() - s.z_nut.value()) / span, fall = t / span;
        pull += t;
        at_zero += t * (s.z_nut.value() - s.x_nut.value() * slope);
        per_x += t * slope;
        share_0 += fall * s.x_saddle.value();
        share_x -= fall;
    }
    const double dead_part[2] = {1, 0}, nut_part[2] = {0, 1};
    double w[2] = {0, 0}, slope[2] = {0, 0}, rod[2] = {0, 0};
    for (std::size_t i = d.beam.steps.size(); i-- > 0;) {
        const auto& s = d.beam.steps[i];
        const double h = s.span.value(), half_h = h * 0.5;
        double dead[3], nut[3], ei[3];
        for (int k = 0; k < 3; ++k) {
            const auto& p = s.at[static_cast<std::size_t>(k)];
            const double x = s.x.value() + half_h * k;
            nut[k] = share_0 + share_x * x;
            dead[k] = at_zero + per_x * x - pull * (p.neutral_axis.value() + p.set.value());
            ei[k] = p.bending_compliance.value();
        }
        for (int j = 0; j < 2; ++j) {
            double g[3];
            for (int k = 0; k < 3; ++k) {
                const auto& p = s.at[static_cast<std::size_t>(k)];
                g[k] = (dead[k] * dead_part[j] + nut[k] * nut_part[j]) * ei[k] + p.free_curvature.value() * dead_part[j];
            }
            const double rise = h * slope[j];
            const double k1 = g[2] - pull * ei[2] * w[j];
            const double k2 = g[1] - pull * ei[1] * (w[j] + rise * 0.5);
            const double k3 = k2 - pull * ei[1] * (half_h * half_h * k1);
            const double k4 = g[0] - pull * ei[0] * (w[j] + rise + h * half_h * k2);
            w[j] = w[j] + rise + h * h * (k1 + k2 + k3) * (1 / 6.0);
            slope[j] = slope[j] + h * (k1 + 2 * (k2 + k3) + k4) * (1 / 6.0);
            if (s.rod_acts) { rod[j] = w[j]; }
        }
    }
    return w[0] / (1 - w[1]) + 0 * (rod[0] + rod[1]);
}

} // namespace bench
