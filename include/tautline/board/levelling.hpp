#pragma once
/// @file
/// What a levelling starts from: crest heights measured along one or more strings, and the wanted shape of the crests.

#include "../core/describe.hpp"
#include "scale.hpp"
#include "string_path.hpp"
#include "surface.hpp"

namespace tautline {

/// One measured crest.
template <class R = double>
struct basic_crest_reading {
    using real = R;
    int fret = not_counted;   ///< 1 and up
    needed<length<R>> height; ///< of the crest over the line's reference
    /// Height of the crown over the board here; absent: that of the levelling.
    std::optional<field<length<R>>> crown{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("fret", between(1, 240), self.fret...);
        visit("height", between(-50 * units::mm, 50 * units::mm), self.height...);
        visit("crown", between(0.01 * units::mm, 10 * units::mm), self.crown...);
    }
};
using crest_reading = basic_crest_reading<double>;

/// Crests measured along one string (or one straightedge), in the order of the frets.
template <class R = double>
struct basic_crest_line {
    using real = R;
    basic_string_path<R> path;                    ///< where the line runs
    std::vector<basic_crest_reading<R>> crests{}; ///< two at least, frets rising

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("path", self.path...);
        visit("crests", self.crests...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (crests.size() < 2) { report("crests", "must hold at least two frets"); }
        for (std::size_t i = 1; i < crests.size(); ++i) {
            if (crests[i].fret <= crests[i - 1].fret) {
                report(messages::path_of("crests", i, "fret"),
                       "must be higher than the fret before it: give the heights in the order of the frets");
            }
        }
    }
};
using crest_line = basic_crest_line<double>;

/// The crests and what is wanted of them. Measure the heights with the neck held as it will be for the levelling.
template <class R = double>
struct basic_levelling {
    using real = R;
    basic_scale<R> scale;                     ///< the frets' places
    std::vector<basic_crest_line<R>> lines{}; ///< one for each string that was measured
    /// True: the heights of all lines are over the same plane. False: each line was measured with its own straightedge
    /// and is levelled on its own.
    bool one_reference = true;
    /// Arc that the crests are to follow. Leave it flat when each line has its own reference.
    basic_surface<R> arc{};
    /// Crown height before levelling, for every crest that does not give its own.
    needed<length<R>> crown;
    /// Least crown height after levelling. A fret left with less is to be replaced.
    field<length<R>> least_crown = 0.5 * units::mm;
    /// From this fret on the surface falls away in a straight ramp, to `fall_away` at the last fret; 0: no fall-away.
    int fall_away_from = 0;
    field<length<R>> fall_away = length<R>(); ///< at the last fret
    /// Relief cut into the crests between two frets. It is a parabola, and this is its depth midway.
    field<length<R>> relief = length<R>();
    int relief_from = 1; ///< fret where the hollow begins
    int relief_to = 0;   ///< 0: the last fret

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("scale", self.scale...);
        visit("lines", self.lines...);
        visit("one_reference", self.one_reference...);
        visit("arc", self.arc...);
        visit("crown", between(0.01 * units::mm, 10 * units::mm), self.crown...);
        visit("least_crown", between(0 * units::mm, 10 * units::mm).fair_default("common practice"), self.least_crown...);
        visit("fall_away_from", between(0, 240).fair_default("no fall-away"), self.fall_away_from...);
        visit("fall_away", between(0 * units::mm, 5 * units::mm).fair_default("no fall-away"), self.fall_away...);
        visit("relief", between(0 * units::mm, 5 * units::mm).fair_default("crests on a straight line"), self.relief...);
        visit("relief_from", between(0, 240).fair_default("from the first fret"), self.relief_from...);
        visit("relief_to", between(0, 240).fair_default("to the last fret"), self.relief_to...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (lines.empty()) { report("lines", "must hold at least one line of crests"); }
        const int last = relief_to == 0 ? scale.frets : relief_to;
        if (fall_away_from >= scale.frets) { report("fall_away_from", "must be lower than the last fret"); }
        if (last > scale.frets || last <= relief_from) {
            report("relief_to", "must be one of the board's frets, higher than where the relief begins");
        }
        // The lines of a fan are not checked here: the functions that level refuse a fan.
        for (std::size_t k = 0; !scale.fan && k < lines.size(); ++k) {
            const length<R> widest = max(abs(length<R>(lines[k].path.y_at_nut)), abs(length<R>(lines[k].path.y_at_saddle)));
            for (std::size_t i = 0; i < lines[k].crests.size(); ++i) {
                if (lines[k].crests[i].fret > scale.frets) {
                    report(messages::path_of("lines", k, messages::path_of("crests", i, "fret")),
                           "must be one of the board's frets");
                }
            }
            const R reach = max(R(kernel::arc_curvature(arc, length<R>()) * widest),
                                R(kernel::arc_curvature(arc, length<R>(scale.scale_length)) * widest));
            if (!in_all_lanes(reach <= number<R>(1))) {
                report(messages::path_of("lines", k, "path"), "must lie within the radius of the arc");
            }
        }
    }
};
using levelling = basic_levelling<double>;

namespace kernel {

/// Height of the wanted surface over its straight line: 0 or below.
template <class R>
[[nodiscard]] length<R> wanted_shape(const basic_levelling<R>& job, const length<R>& x) {
    const auto at = [&](int n) { return kernel::fret_position(job.scale, n); };
    const R zero{}, one = number<R>(1);
    length<R> z{};
    if (job.fall_away_from > 0) {
        const length<R> start = at(job.fall_away_from), end = at(job.scale.frets);
        z -= job.fall_away * max(zero, R(ratio<unit::length, R>(x - start, end - start)));
    }
    const length<R> from = at(job.relief_from), to = at(job.relief_to == 0 ? job.scale.frets : job.relief_to);
    const R t = min(one, max(zero, R(ratio<unit::length, R>(x - from, to - from))));
    return z - job.relief * R(number<R>(4) * t * R(one - t));
}

} // namespace kernel

/// Height of the wanted surface at `x` over its straight line, from fall-away and relief: 0 or below. `x` within
/// 5 m of the nut, else `invalid_input`.
template <class R = double>
[[nodiscard]] length<R> wanted_shape(const basic_levelling<R>& job, param<length<R>> x) {
    require_valid(job, "levelling");
    kernel::require_one_scale(job.scale, "levelling.scale.fan");
    require("x", x, about_an_instrument());
    return kernel::wanted_shape<R>(job, x);
}

} // namespace tautline
