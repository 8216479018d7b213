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
        const auto most = kernel::hardest_clean_pluck<double>(d.line, d.x, d.z, n, 0.08 * units::metre, 80 * units::N);
        sum += most.pull.value() + 0 * most.fret;
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
        double least_gap = 1e30, its_share = 1, fret = 0;
        for (std::size_t i = n; i < d.raw_x.size(); ++i) {
            const double gap = z0 + slope * (d.raw_x[i] - x0) - d.raw_z[i];
            const double a = x1 - d.raw_x[i], b = l - a;
            const double short_side = (b < a ? b : a) * per_near, long_side = (a < b ? b : a) * per_far;
            const double above = gap < 0 ? 0 : gap, share = long_side < short_side ? long_side : short_side;
            const bool smaller = above * its_share < least_gap * share;
            least_gap = smaller ? above : least_gap;
            its_share = smaller ? share : its_share;
            fret = smaller ? static_cast<double>(i + 1) : fret;
        }
        sum += least_gap / its_share / ((l - p) / l * p / tension) + 0 * fret;
    }
    return sum;
}

// The parts of a bow over 200 stations: dead load and a unit rise of the nut, integrated side by side. Both know every
// case: a set at the nut, a joint that gives, a rod of either kind, in its channel or free.
[[gnu::noinline]] inline double bow_units(kernel_data& d) {
    const kernel::bow_problem<double> problem{d.beam, kernel::gather<double>(d.pulls), {}, {}};
    return problem.solve().parts.nut_rise.value();
}
struct raw_load {
    double pull = 0, at_zero = 0, per_x = 0, share_0 = 0, share_x = 0, rod_pull = 0, nut_set = 0;
};
struct raw_moments {
    double dead = 0, nut = 0, rod = 0;
};
[[gnu::always_inline]] inline raw_moments raw_moments_at(const raw_load& load, const neck_beam& beam,
                                                         const basic_beam_step<double>& step,
                                                         const basic_beam_point<double>& p, double x) {
    raw_moments m;
    m.nut = load.share_0 + load.share_x * x;
    m.dead = load.at_zero + load.per_x * x + m.nut * load.nut_set - load.pull * (p.neutral_axis.value() + p.set.value());
    if (step.rod_acts) {
        const auto& rod = *beam.rod;
        if (rod.two_way()) {
            m.dead = m.dead - load.rod_pull * rod.separation.value();
        } else {
            m.dead = m.dead - load.rod_pull * (p.neutral_axis.value() - p.rod_height.value());
            if (rod.free_in_channel) {
                const double from = rod.x_from.value() < 0 ? 0 : rod.x_from.value();
                const double to = rod.x_to.value() < beam.joint.value() ? rod.x_to.value() : beam.joint.value();
                m.rod = (x - from) / (to - from);
            }
        }
    }
    return m;
}
template <int Parts>
inline void raw_integrate(const raw_load& load, const neck_beam& beam, const double (*parts)[3], double (*end)[2]) {
    const bool free_rod = beam.rod.has_value() && beam.rod->free_in_channel && !beam.rod->two_way();
    double w[Parts] = {}, slope[Parts] = {}, rod_end[Parts] = {};
    const auto& last = beam.steps.back();
    bool in_rod = last.rod_acts;
    for (int j = 0; j < Parts; ++j) {
        if (!beam.joint_stiffness.has_value()) { continue; }
        const raw_moments m = raw_moments_at(load, beam, last, last.at[2], beam.joint.value());
        double all = m.dead * parts[j][0] + m.nut * parts[j][1];
        if (last.rod_acts && free_rod) { all += load.rod_pull * parts[j][2] * (1 - m.rod); }
        slope[j] = all / beam.joint_stiffness->value();
    }
    for (std::size_t i = beam.steps.size(); i-- > 0;) {
        const auto& s = beam.steps[i];
        if (s.rod_acts && !in_rod) {
            for (int j = 0; j < Parts; ++j) { rod_end[j] = w[j]; }
            in_rod = true;
        }
        const bool on_free_rod = free_rod && s.rod_acts;
        const double follows = on_free_rod ? load.pull + load.rod_pull : load.pull;
        const double h = s.span.value(), half_h = h * 0.5;
        const raw_moments m[3] = {raw_moments_at(load, beam, s, s.at[0], s.x.value()),
                                  raw_moments_at(load, beam, s, s.at[1], s.x.value() + half_h),
                                  raw_moments_at(load, beam, s, s.at[2], s.x.value() + h)};
        const double r0 = follows * s.at[0].bending_compliance.value(), r1 = follows * s.at[1].bending_compliance.value(),
                     r2 = follows * s.at[2].bending_compliance.value();
        for (int j = 0; j < Parts; ++j) {
            const auto bend = [&](std::size_t k) {
                double moment = m[k].dead * parts[j][0] + m[k].nut * parts[j][1];
                if (on_free_rod) { moment += load.rod_pull * (parts[j][2] * (1 - m[k].rod) + rod_end[j] * m[k].rod); }
                return moment * s.at[k].bending_compliance.value() + s.at[k].free_curvature.value() * parts[j][0];
            };
            const double start = w[j], rise = h * slope[j], g1 = bend(1);
            const double k1 = bend(2) - r2 * start;
            const double k2 = g1 - r1 * (start + rise * 0.5);
            const double k3 = k2 - r1 * (half_h * half_h * k1);
            const double k4 = bend(0) - r0 * (start + rise + h * half_h * k2);
            w[j] = start + rise + h * h * (k1 + k2 + k3) * (1 / 6.0);
            slope[j] = slope[j] + h * (k1 + 2 * (k2 + k3) + k4) * (1 / 6.0);
            if (s.rod_acts) { end[j][1] = w[j]; }
        }
    }
    for (int j = 0; j < Parts; ++j) { end[j][0] = w[j]; }
}
[[gnu::noinline]] inline double bow_raw(kernel_data& d) {
    raw_load load;
    for (const auto& s : d.pulls) {
        const double span = s.x_saddle.value() - s.x_nut.value(), t = s.pull.value();
        const double slope = (s.z_saddle.value() - s.z_nut.value()) / span, fall = t / span;
        load.pull += t;
        load.at_zero += t * (s.z_nut.value() - s.x_nut.value() * slope);
        load.per_x += t * slope;
        load.share_0 += fall * s.x_saddle.value();
        load.share_x -= fall;
    }
    const double parts[3][3] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
    double end[3][2] = {};
    if (d.beam.rod.has_value() && d.beam.rod->free_in_channel && !d.beam.rod->two_way()) {
        raw_integrate<3>(load, d.beam, parts, end);
    } else {
        raw_integrate<2>(load, d.beam, parts, end);
    }
    const double left = 1 - end[2][1], per_rise = end[1][0] + end[2][0] * end[1][1] / left;
    return (end[0][0] + end[0][1] * (end[2][0] / left)) / (1 - per_rise);
}

} // namespace bench
