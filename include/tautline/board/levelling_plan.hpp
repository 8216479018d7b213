#pragma once
/// @file
/// The highest surface that levelling can reach: how much it cuts from each crest, how much crown is left, and which
/// low frets make the others lose more.

#include <algorithm>

#include "../core/linear_programme.hpp"
#include "../core/when_used.hpp"
#include "levelling.hpp"

namespace tautline {

/// One crest in the plan.
template <class R = double>
struct basic_crest_cut {
    std::size_t line = 0;   ///< place in the list of lines, from 0
    int fret = 0;           ///< 1 and up
    length<R> x{};          ///< of the crest, along the board
    length<R> y{};          ///< of the crest, across the board
    length<R> found{};      ///< its height as measured
    length<R> cut{};        ///< to take off; 0 or more
    length<R> crown_left{}; ///< over the board after the cut
    /// The surface rests on this crest: it is not cut.
    bool touches = false;
    /// Total cut saved for each unit that this crest were higher, a plain ratio. More than 0: this crest holds the rest
    /// down. Where more crests touch than fix the surface, it is one choice among several.
    double holds = 0;
};
using crest_cut = basic_crest_cut<double>;

/// One fret in the plan: the worst over the lines.
template <class R = double>
struct basic_fret_cut {
    int fret = 0;                  ///< 1 and up
    length<R> greatest_cut{};      ///< over the lines
    length<R> least_crown_left{};  ///< over the lines
    bool replace = false;          ///< too little crown would be left
    bool holds_down = false;       ///< it lies low, so that the others lose more
    length<R> saved_if_replaced{}; ///< total cut saved if a new fret that is high enough stands here
};
using fret_cut = basic_fret_cut<double>;

/// The plan.
template <class R = double>
struct basic_levelling_plan {
    std::vector<basic_crest_cut<R>> crests{}; ///< line by line, in the order of the frets
    std::vector<basic_fret_cut<R>> frets{};   ///< fret 1 first
    length<R> total_cut{};                    ///< sum over the crests: the least that any surface of the wanted shape needs
    /// Whether another surface may need the same total. Its single cuts then differ.
    bool other_surfaces = false;
};
using levelling_plan = basic_levelling_plan<double>;

namespace kernel {

/// A crest with the terms of the wanted surface there: height = shape + sum of coefficient * term.
template <class R>
struct crest_terms {
    basic_crest_cut<R> cut{};
    length<R> crown{};
    length<R> shape{};
    std::vector<R> terms{};
};

/// The terms of each crest. With one reference they are level, slope, roll and twist, each straight along every string.
/// The place across is taken as a share of the spread of the outermost lines, so that a twist does not bend the surface
/// along spreading strings. Without one reference they are level and slope for each line.
template <class R>
[[nodiscard]] std::vector<crest_terms<R>> crest_list(const basic_levelling<R>& job) {
    const length<R> board = kernel::fret_position(job.scale, job.scale.frets);
    length<R> reach_at_nut{}, reach_at_end{};
    for (const auto& line : job.lines) {
        reach_at_nut = max(reach_at_nut, abs(kernel::y_at(line.path, length<R>())));
        reach_at_end = max(reach_at_end, abs(kernel::y_at(line.path, board)));
    }
    // Where all lines run along the centre there is no roll or twist, and this floor avoids a division by 0.
    const length<R> reach_floor = length<R>::from_value(number<R>(1e-6L));
    reach_at_nut = max(reach_at_nut, reach_floor);
    reach_at_end = max(reach_at_end, reach_floor);
    std::vector<crest_terms<R>> list;
    for (std::size_t k = 0; k < job.lines.size(); ++k) {
        for (const auto& c : job.lines[k].crests) {
            crest_terms<R> t;
            const length<R> x = kernel::fret_position(job.scale, c.fret), y = kernel::y_at(job.lines[k].path, x);
            t.cut = {.line = k, .fret = c.fret, .x = x, .y = y, .found = c.height};
            t.crown = c.crown ? length<R>(*c.crown) : length<R>(job.crown);
            t.shape = kernel::wanted_shape(job, x) + kernel::surface_height(job.arc, x, y);
            const R along = ratio<unit::length, R>(x, board), one = number<R>(1);
            if (job.one_reference) {
                t.terms = {one, along};
                if (job.lines.size() > 1) {
                    const R across = ratio<unit::length, R>(y, reach_at_nut + (reach_at_end - reach_at_nut) * along);
                    t.terms.push_back(across);
                    t.terms.push_back(across * along);
                }
            } else {
                t.terms.assign(2 * job.lines.size(), R{});
                t.terms[2 * k] = one;
                t.terms[2 * k + 1] = along;
            }
            list.push_back(t);
        }
    }
    return list;
}

/// Height of a crest less the wanted shape there, in mm as a plain number. The straight part may reach up to it.
template <class R>
[[nodiscard]] R room(const crest_terms<R>& t) {
    return length<R>(t.cut.found - t.shape) / units::mm;
}

/// The linear programme: it makes the sum of the surface's heights as great as possible, with the surface nowhere above
/// a crest.
template <class R>
[[nodiscard]] linear_programme levelling_programme(const std::vector<crest_terms<R>>& list, int without_fret) {
    when_used_t<linear_programme, R> p;
    const std::size_t count = list.front().terms.size();
    p.objective.assign(count, 0);
    p.free = std::vector<unsigned char>(count, 1);
    for (const auto& t : list) {
        if (t.cut.fret == without_fret) { continue; }
        when_used_t<std::vector<double>, R> row;
        for (std::size_t j = 0; j < count; ++j) {
            row.push_back(static_cast<double>(value_of(t.terms[j])));
            p.objective[j] += row.back();
        }
        p.rows.push_back(row);
        p.limits.push_back(static_cast<double>(value_of(room(t))));
    }
    return p;
}

/// Solves the equations of the crests that the surface rests on, in the caller's number type, by elimination with the
/// largest pivot. Coefficients that no crest determines stay 0.
template <class R>
[[nodiscard]] std::vector<R> resting_surface(const std::vector<crest_terms<R>>& list,
                                             const std::vector<std::size_t>& tight) {
    const std::size_t count = list.front().terms.size();
    std::vector<std::vector<R>> rows;
    for (const std::size_t i : tight) {
        rows.push_back(list[i].terms);
        rows.back().push_back(room(list[i]));
    }
    const auto size_of = [](const R& v) { return std::abs(static_cast<double>(value_of(v))); };
    std::vector<R> coefficients(count);
    std::vector<std::size_t> column_of;
    for (std::size_t step = 0; step < rows.size(); ++step) {
        std::size_t best_row = step, best_column = 0;
        for (std::size_t i = step; i < rows.size(); ++i) {
            for (std::size_t j = 0; j < count; ++j) {
                if (size_of(rows[i][j]) > size_of(rows[best_row][best_column])) {
                    best_row = i;
                    best_column = j;
                }
            }
        }
        if (size_of(rows[best_row][best_column]) < 1e-9) { break; }
        std::swap(rows[step], rows[best_row]);
        column_of.push_back(best_column);
        for (std::size_t i = 0; i < rows.size(); ++i) {
            if (i == step) { continue; }
            const R f = rows[i][best_column] / rows[step][best_column];
            for (std::size_t j = 0; j <= count; ++j) { rows[i][j] += -(f * rows[step][j]); }
            rows[i][best_column] = R{};
        }
    }
    for (std::size_t i = 0; i < column_of.size(); ++i) {
        coefficients[column_of[i]] = rows[i][count] / rows[i][column_of[i]];
    }
    return coefficients;
}

/// Total cut in mm over all crests but those of `without_fret`.
template <class R>
[[nodiscard]] double least_cut(const std::vector<crest_terms<R>>& list, int without_fret) {
    const auto p = levelling_programme(list, without_fret);
    if (p.rows.empty()) { return 0; }
    double rooms = 0;
    for (const double limit : p.limits) { rooms += limit; }
    return rooms - solve_programme(p).value;
}

} // namespace kernel

/// The plan with the least total cut, by linear programming. Its surface is
/// `arc + fall-away + relief + level + slope along (+ roll + twist)` and lies nowhere above a crest.
///
/// All crests count alike. The optimum may not be the only one (`other_surfaces`); only the totals are then sure.
/// Throws `invalid_input` on bad input, and where rounding makes the search give up.
template <class R = double>
[[nodiscard]] basic_levelling_plan<R> plan_levelling(const basic_levelling<R>& job) {
    require_valid(job, "levelling");
    kernel::require_one_scale(job.scale, "levelling.scale.fan");
    const auto list = kernel::crest_list(job);
    const auto best = solve_programme(kernel::levelling_programme(list, 0));
    require_that(best.end == programme_end::optimal, "levelling.lines",
                 "must lie far enough apart to fix a surface: the search for it gave up");
    const auto coefficients = kernel::resting_surface(list, best.tight);

    basic_levelling_plan<R> plan;
    plan.other_surfaces = !best.unique;
    for (std::size_t i = 0; i < list.size(); ++i) {
        const auto& t = list[i];
        R straight{};
        for (std::size_t j = 0; j < coefficients.size(); ++j) { straight += coefficients[j] * t.terms[j]; }
        basic_crest_cut<R> c = t.cut;
        c.cut = max(length<R>(), (kernel::room(t) - straight) * units::mm);
        c.touches = best.slack[i] < 1e-7; // mm
        c.holds = best.multipliers[i];
        c.crown_left = t.crown - c.cut;
        plan.total_cut += c.cut;
        plan.crests.push_back(c);
    }

    const double total = kernel::least_cut(list, 0);
    for (int n = 1; n <= job.scale.frets; ++n) {
        basic_fret_cut<R> f{.fret = n};
        bool met = false;
        double own = 0;
        for (const auto& c : plan.crests) {
            if (c.fret != n) { continue; }
            f.greatest_cut = met ? max(f.greatest_cut, c.cut) : c.cut;
            f.least_crown_left = met ? min(f.least_crown_left, c.crown_left) : c.crown_left;
            f.holds_down = f.holds_down || c.holds > 1e-9;
            own += static_cast<double>(value_of(c.cut.value())) * 1e3;
            met = true;
        }
        if (!met) { continue; }
        f.replace = in_any_lane(is_less<unit::length, R>(f.least_crown_left, job.least_crown));
        if (f.holds_down) {
            const double saved = total - own - kernel::least_cut(list, n);
            f.saved_if_replaced = number<R>(std::max(saved, 0.0)) * units::mm;
        }
        plan.frets.push_back(f);
    }
    return plan;
}

} // namespace tautline
