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

#include "neck.hpp"

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
        // A size at which no row lies a multiple of 4 KiB behind another: such loads wait for stores they do not depend on.
        for (auto* row : {&raw_mu, &raw_pull}) { row->reserve(300); }
        mu.reserve(300);
        pull.reserve(300);
        for (int i = 0; i < 300; ++i) {
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
        make_beam(plain_neck(), 399, beam);
        pulls = six_pulls();
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

// Least clearances and hardest clean plucks, pressed at every fret, two notes side by side in a row. Every result counts in
// both sums: what no one asks for a compiler leaves out where it inlines.
[[gnu::noinline]] inline double pluck_units(kernel_data& d) {
    constexpr std::size_t W = kernel::notes_together<double>;
    std::array<length<double>, W> places;
    std::array<force<double>, W> tensions;
    places.fill(0.08 * units::metre);
    tensions.fill(80 * units::N);
    double sum = 0;
    for (std::size_t n = 0; n < d.x.size(); n += W) {
        std::array<basic_least_clearance<double>, W> gaps;
        std::array<basic_clean_pluck<double>, W> some;
        kernel::rooms_of_notes<double>(d.line, d.x, d.z, n, places, tensions, gaps, some);
        for (std::size_t k = 0; k < W; ++k) {
            sum += some[k].pull.value() + some[k].displacement.value() + some[k].fret + gaps[k].gap.value() + gaps[k].fret;
        }
    }
    return sum;
}
struct raw_room {
    double gap = 0, gap_fret = 0, displacement = 0, pull = 0, fret = 0;
};
struct raw_line {
    double nut_x = 0, nut_z = 0, saddle_x = 0, saddle_z = 0;
};
inline void raw_rooms_of_notes(const raw_line& s, std::span<const double> x, std::span<const double> z, std::size_t pressed,
                               double place, double tension, std::span<raw_room> found) {
    using V = number_row<double>;
    const auto note = [&](std::size_t k) { return std::min(pressed + k, x.size()); };
    const V x0 = V::made([&](std::size_t k) { return note(k) == 0 ? s.nut_x : x[note(k) - 1]; });
    const V z0 = V::made([&](std::size_t k) { return note(k) == 0 ? s.nut_z : z[note(k) - 1]; });
    const V l = V(s.saddle_x) - x0, slope = (V(s.saddle_z) - z0) / l, p(place), near = min(p, V(l - p));
    const V per_near = V(1) / near, per_far = V(1) / (l - near), none(1e30), one(1);
    V least = none, its_fret(0), room = none, met(0), fret(static_cast<double>(pressed));
    const auto look = [&](std::size_t i, bool all_ahead) __attribute__((always_inline)) {
        const V q(s.saddle_x - x[i]), below(s.saddle_z - z[i]), rest = l - q;
        V gap = below - slope * q;
        V here = max(gap, V(0)) / min(V(min(q, rest) * per_near), V(max(q, rest) * per_far));
        if (!all_ahead) {
            const auto ahead = x0 < V(x[i]);
            gap = select(ahead, gap, none);
            here = select(ahead, here, none);
        }
        fret = fret + one;
        its_fret = max(its_fret, select(gap < least, fret, V(0)));
        least = min(least, gap);
        met = max(met, select(here < room, fret, V(0)));
        room = min(room, here);
    };
    std::size_t i = pressed;
    for (; i + 1 < pressed + V::count && i < x.size(); ++i) { look(i, false); }
    for (; i < x.size(); ++i) { look(i, true); }
    const V pull = room / ((l - p) / l * p / V(tension));
    for (std::size_t k = 0; k < found.size(); ++k) { found[k] = {least[k], its_fret[k], room[k], pull[k], met[k]}; }
}
[[gnu::noinline]] inline double pluck_raw(kernel_data& d) {
    const raw_line line{d.line.nut_x.value(), d.line.nut_z.value(), d.line.saddle_x.value(), d.line.saddle_z.value()};
    double sum = 0;
    for (std::size_t n = 0; n < d.raw_x.size(); n += number_row<double>::count) {
        std::array<raw_room, number_row<double>::count> some;
        raw_rooms_of_notes(line, d.raw_x, d.raw_z, n, 0.08, 80, some);
        for (const auto& most : some) { sum += most.pull + most.displacement + most.fret + most.gap + most.gap_fret; }
    }
    return sum;
}

// The parts of a bow over some 200 steps: dead load and a unit rise of the nut, integrated side by side. Both know every
// case: a set at the nut, a joint that gives, a rod of either kind, in its channel or free.
[[gnu::noinline]] inline double bow_units(kernel_data& d) {
    const kernel::bow_problem<double> problem{d.beam, kernel::gather<double>(d.pulls), {}, {}};
    return kernel::solve_bow(problem).parts.nut_rise.value();
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
            if (rod.free_in_channel) { m.rod = (x - rod.x_from.value()) / (rod.x_to.value() - rod.x_from.value()); }
        }
    }
    return m;
}
template <int Parts>
struct raw_bends {
    double load[Parts] = {};
    double per_rise = 0;
};
template <int Parts>
[[gnu::always_inline]] inline raw_bends<Parts>
raw_bends_at(const raw_load& load, const neck_beam& beam, const basic_beam_step<double>& step,
             const basic_beam_point<double>& p, double x, const double (&rod_end)[Parts]) {
    const raw_moments m = raw_moments_at(load, beam, step, p, x);
    const double compliance = p.bending_compliance.value();
    raw_bends<Parts> bends;
    bends.load[0] = m.dead * compliance + p.free_curvature.value();
    bends.load[1] = m.nut * compliance;
    bends.per_rise = load.pull * compliance;
    if (Parts == 3 && step.rod_acts) {
        const double rod_rate = load.rod_pull * compliance;
        bends.load[Parts - 1] = rod_rate * (1 - m.rod);
        for (int j = 0; j < Parts; ++j) { bends.load[j] += rod_rate * rod_end[j] * m.rod; }
        bends.per_rise += rod_rate;
    }
    return bends;
}
template <int Parts>
inline void raw_integrate(const raw_load& load, const neck_beam& beam, const double (*parts)[3], double (*end)[2]) {
    double w[Parts] = {}, slope[Parts] = {}, rod_end[Parts] = {};
    const auto& last = beam.steps.back();
    bool in_rod = last.rod_acts;
    for (int j = 0; j < Parts; ++j) {
        if (!beam.joint_stiffness.has_value()) { continue; }
        const raw_moments m = raw_moments_at(load, beam, last, beam.points[last.first + 2], beam.joint.value());
        double all = m.dead * parts[j][0] + m.nut * parts[j][1];
        if (last.rod_acts && Parts == 3) { all += load.rod_pull * parts[j][2] * (1 - m.rod); }
        slope[j] = all / beam.joint_stiffness->value();
    }
    raw_bends<Parts> far;
    std::size_t far_point = beam.points.size();
    for (std::size_t i = beam.steps.size(); i-- > 0;) {
        const auto& s = beam.steps[i];
        if (s.rod_acts && !in_rod) {
            for (int j = 0; j < Parts; ++j) { rod_end[j] = w[j]; }
            in_rod = true;
        }
        const double h = s.span.value(), half_h = h * 0.5;
        const auto* p = &beam.points[s.first];
        if (s.first + 2 != far_point) { far = raw_bends_at<Parts>(load, beam, s, p[2], s.x.value() + h, rod_end); }
        const auto middle = raw_bends_at<Parts>(load, beam, s, p[1], s.x.value() + half_h, rod_end);
        const auto near = raw_bends_at<Parts>(load, beam, s, p[0], s.x.value(), rod_end);
        for (int j = 0; j < Parts; ++j) {
            const double start = w[j], rise = h * slope[j], risen = start + rise;
            const double k1 = far.load[j] - far.per_rise * start;
            const double k2 = middle.load[j] - middle.per_rise * (start + rise * 0.5);
            const double k3 = k2 - middle.per_rise * (half_h * half_h * k1);
            const double k4 = near.load[j] - near.per_rise * (risen + h * half_h * k2);
            w[j] = risen + h * h * (1 / 6.0) * (k1 + k2 + k3);
            slope[j] = slope[j] + h * (1 / 6.0) * (k1 + 2 * (k2 + k3) + k4);
            if (s.rod_acts) { end[j][1] = w[j]; }
        }
        far = near;
        far_point = s.first;
    }
    const double in_head = Parts == 3 && beam.rod->x_from.value() < 0 ? -beam.rod->x_from.value() : 0;
    for (int j = 0; j < Parts; ++j) {
        end[j][0] = w[j];
        end[j][1] += in_head * slope[j];
    }
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
