#pragma once
/// @file
/// The scale as found: the scale length, and where the nut should have stood, from distances measured from nut to
/// frets.

#include "../core/line_fit.hpp"
#include "scale.hpp"

namespace tautline {

/// One distance measured from the front face of the nut to the crest of a fret.
template <class R = double>
struct basic_fret_reading {
    using real = R;
    int fret = not_counted;     ///< 1 and up
    needed<length<R>> distance; ///< from the front face of the nut to the crest

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("fret", between(1, 240), self.fret...);
        visit("distance", between(0.1 * units::mm, 3000 * units::mm), self.distance...);
    }
};
using fret_reading = basic_fret_reading<double>;

/// Readings of one board, and how to fit them. A fret may be read more than once.
template <class R = double>
struct basic_fret_readings {
    using real = R;
    std::vector<basic_fret_reading<R>> readings{}; ///< at two different frets at least
    int steps = 12;                                ///< equal steps to the octave
    /// Whether to find a common offset of all frets too, as if the nut had been moved.
    bool with_nut_offset = false;
    /// Resolution of the rule. A reading within this distance of the line through the others is never called an
    /// outlier.
    field<length<R>> resolution = 0.1 * units::mm;
    /// How many standard deviations make an outlier; they are found without the reading itself. Common practice, no
    /// source.
    double outlier_limit = 4;
    /// Fit again without the outliers.
    bool leave_out_outliers = false;

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("readings", self.readings...);
        visit("steps", between(1, 120).fair_default("semitones"), self.steps...);
        visit("with_nut_offset", self.with_nut_offset...);
        visit("resolution", between(0 * units::mm, 10 * units::mm).fair_default("what the eye reads off a rule"),
              self.resolution...);
        visit("outlier_limit", between(0.1, 1000).fair_default("common practice"), self.outlier_limit...);
        visit("leave_out_outliers", self.leave_out_outliers...);
    }
    template <class Report>
    void rules(Report&& report) const {
        int different = 0;
        for (std::size_t i = 0; i < readings.size(); ++i) {
            if (i > 0 && readings[i].fret < readings[i - 1].fret) {
                report(messages::path_of("readings", i, "fret"),
                       "must not be lower than the fret of the reading before it");
            } else if (i > 0 && readings[i].fret > readings[i - 1].fret &&
                       !in_all_lanes(readings[i - 1].distance.value() < readings[i].distance.value())) {
                report(messages::path_of("readings", i, "distance"), "must be more than that of the lower fret before it");
            }
            different += i == 0 || readings[i].fret != readings[i - 1].fret;
        }
        if (different < 2) { report("readings", "must hold at least two different frets"); }
    }
};
using fret_readings = basic_fret_readings<double>;

/// How one reading agrees with the scale that was found.
template <class R = double>
struct basic_found_fret {
    int fret = 0;         ///< the fret that was read
    length<R> residual{}; ///< measured less fitted place; + is too near the saddle
    interval<R> error{};  ///< + is sharp
    bool outlier = false; ///< further off than the scatter of the other readings explains
};
using found_fret = basic_found_fret<double>;

/// The scale that fits best.
template <class R = double>
struct basic_found_scale {
    length<R> scale_length{}; ///< by least squares
    /// Standard uncertainty of the scale length, from the scatter of the readings; none without more readings than
    /// unknowns.
    std::optional<length<R>> scale_length_error{};
    /// Positive: all frets stand too far from the nut by this much. The nut must move this far toward the saddle.
    length<R> nut_offset{};
    std::optional<length<R>> nut_offset_error{}; ///< its standard uncertainty, if an offset was asked for
    /// Standard deviation of one reading about the fit.
    std::optional<length<R>> scatter{};
    std::vector<basic_found_fret<R>> frets{}; ///< in the order of the readings
};
using found_scale = basic_found_scale<double>;

namespace kernel {

/// The reading with the largest externally studentised residual beyond the limit, or none.
/// Source: R. D. Cook and S. Weisberg, Residuals and Influence in Regression (1982), sec. 2.2 (from memory).
template <class R>
[[nodiscard]] std::optional<std::size_t> worst_outlier(const basic_line_fit<R>& f, double limit, double resolution) {
    if (f.freedom < 2) { return std::nullopt; }
    std::optional<std::size_t> worst;
    double largest = limit;
    for (std::size_t i = 0; i < f.residuals.size(); ++i) {
        const double r = static_cast<double>(value_of(f.residuals[i]));
        const double kept = 1 - static_cast<double>(value_of(f.leverages[i]));
        const double squares = static_cast<double>(value_of(f.squares)) - r * r / kept;
        // Where the others lie exactly on a line, any reading off it by more than the resolution is an outlier.
        const double sigma = std::sqrt((squares > 0 ? squares : 0) / (f.freedom - 1) * kept);
        // r/kept is how far the reading lies off the line through the others.
        if (std::abs(r) > resolution * kept && std::abs(r) > largest * sigma) {
            worst = i;
            largest = sigma > 0 ? std::abs(r) / sigma : std::numeric_limits<double>::infinity();
        }
    }
    return worst;
}

} // namespace kernel

/// The scale that fits `d_n = offset + S (1 - 2^(-n/N))` by least squares; the offset is fitted only if asked for.
///
/// Outliers are found one after another, each against the fit without those found before. At most a third of the
/// readings are called outliers. Throws `invalid_input` for readings at fewer than two different frets, for readings
/// that are not in the order of the frets, and for values out of range.
template <class R = double>
[[nodiscard]] basic_found_scale<R> find_scale(const basic_fret_readings<R>& job) {
    require_valid(job, "fret_readings");
    const std::size_t count = job.readings.size();
    std::vector<R> shares, places;
    for (const auto& r : job.readings) {
        shares.push_back(number<R>(1) - kernel::share_left<R>(r.fret, job.steps));
        places.push_back(r.distance.value());
    }
    std::vector<unsigned char> outlier(count);
    auto fit = fit_line(shares, places, job.with_nut_offset);
    auto cleaned = fit;
    for (std::size_t taken = 0; 3 * (taken + 1) <= count; ++taken) {
        std::vector<R> x, y;
        std::vector<std::size_t> index;
        for (std::size_t i = 0; i < count; ++i) {
            if (outlier[i]) { continue; }
            x.push_back(shares[i]);
            y.push_back(places[i]);
            index.push_back(i);
        }
        cleaned = fit_line(x, y, job.with_nut_offset);
        const auto worst =
            kernel::worst_outlier(cleaned, job.outlier_limit, static_cast<double>(value_of(job.resolution.value())));
        if (!worst) { break; }
        outlier[index[*worst]] = 1;
        // Two different frets must stay.
        int first = 0, last = 0;
        for (std::size_t i = 0; i < count; ++i) {
            if (outlier[i]) { continue; }
            first = first == 0 ? job.readings[i].fret : first;
            last = job.readings[i].fret;
        }
        if (first == last) {
            outlier[index[*worst]] = 0;
            break;
        }
    }
    if (job.leave_out_outliers) {
        std::vector<R> x, y;
        for (std::size_t i = 0; i < count; ++i) {
            if (outlier[i]) { continue; }
            x.push_back(shares[i]);
            y.push_back(places[i]);
        }
        fit = fit_line(x, y, job.with_nut_offset);
    }

    const auto metres = [](const R& v) { return length<R>::from_value(v); };
    basic_found_scale<R> found;
    found.scale_length = metres(fit.slope);
    found.nut_offset = metres(fit.offset);
    if (const auto variance = reading_variance(fit)) {
        found.scatter = metres(sqrt(*variance));
        found.scale_length_error = metres(sqrt(R(*variance * fit.slope_slope)));
        if (job.with_nut_offset) { found.nut_offset_error = metres(sqrt(R(*variance * fit.offset_offset))); }
    }
    for (std::size_t i = 0; i < count; ++i) {
        const R wanted_rest = fit.slope * R(number<R>(1) - shares[i]);
        const R rest = fit.offset + fit.slope - places[i];
        found.frets.push_back({.fret = job.readings[i].fret,
                               .residual = metres(places[i] - fit.offset - fit.slope * shares[i]),
                               .error = interval<R>::from_cents(number<R>(1200) * log2(R(wanted_rest / rest))),
                               .outlier = outlier[i] != 0});
    }
    return found;
}

} // namespace tautline
