#pragma once
/// @file
/// The centre line of the board, carried on to the bridge and the tail, with its uncertainty there.

#include "../core/describe.hpp"
#include "../core/line_fit.hpp"
#include "../core/units.hpp"

namespace tautline {

/// The two edges of the board at one place, measured across from one straight reference line (a taut thread, a
/// straightedge).
template <class R = double>
struct basic_edge_reading {
    using real = R;
    needed<length<R>> x;           ///< along the board from any zero, the same for all readings
    needed<length<R>> bass_edge;   ///< from the reference line
    needed<length<R>> treble_edge; ///< from the reference line

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("x", between(-1000 * units::mm, 3000 * units::mm), self.x...);
        visit("bass_edge", between(-1000 * units::mm, 1000 * units::mm), self.bass_edge...);
        visit("treble_edge", between(-1000 * units::mm, 1000 * units::mm), self.treble_edge...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (!in_all_lanes(bass_edge.value() < treble_edge.value())) {
            report("treble_edge", "must lie on the treble side of the bass edge");
        }
    }
};
using edge_reading = basic_edge_reading<double>;

/// Readings at two or more places.
template <class R = double>
struct basic_edge_readings {
    using real = R;
    std::vector<basic_edge_reading<R>> readings{}; ///< in any order
    /// Standard uncertainty of one edge reading. Absent: it is found from the scatter of readings at three places or
    /// more.
    std::optional<field<length<R>>> reading_error{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("readings", self.readings...);
        visit("reading_error", between(0.0001 * units::mm, 10 * units::mm), self.reading_error...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (readings.size() < 2) { report("readings", "must hold at least two places"); }
        for (std::size_t i = 1; i < readings.size(); ++i) {
            if (!in_all_lanes(readings[i - 1].x.value() < readings[i].x.value())) {
                report(messages::path_of("readings", i, "x"), "must be further from the nut than the place before it");
            }
        }
    }
};
using edge_readings = basic_edge_readings<double>;

/// A straight centre line in the frame of the readings.
template <class R = double>
struct basic_centre_line {
    basic_line_fit<R> fit{};     ///< in metres
    std::optional<R> variance{}; ///< of one middle, m^2; none: two places and no reading error given
};
using centre_line = basic_centre_line<double>;

/// A place across the instrument, and its standard uncertainty where it is known.
template <class R = double>
struct basic_place_across {
    length<R> y{};                          ///< from the reference line
    std::optional<length<R>> uncertainty{}; ///< standard uncertainty; none where it is not known
};
using place_across = basic_place_across<double>;

/// Least-squares line through the middles of the board.
template <class R = double>
[[nodiscard]] basic_centre_line<R> find_centre_line(const basic_edge_readings<R>& job) {
    require_valid(job, "edge_readings");
    std::vector<R> x, middle;
    for (const auto& r : job.readings) {
        x.push_back(r.x.value());
        middle.push_back(R(r.bass_edge.value() + r.treble_edge.value()) * number<R>(0.5L));
    }
    basic_centre_line<R> line{.fit = fit_line(x, middle, true)};
    if (job.reading_error) {
        // The middle of two independent edges.
        line.variance = R(job.reading_error->value() * job.reading_error->value() * number<R>(0.5L));
    } else {
        line.variance = reading_variance(line.fit);
    }
    return line;
}

/// The centre line at `x`. It may lie far beyond the board, at the bridge or the tail.
template <class R = double>
[[nodiscard]] basic_place_across<R> centre_at(const basic_centre_line<R>& line, param<length<R>> x) {
    require("x", x, any_finite<unit::length>());
    basic_place_across<R> at{.y = length<R>::from_value(line.fit.offset + line.fit.slope * x.value())};
    if (line.variance) {
        at.uncertainty = length<R>::from_value(sqrt(R(*line.variance * height_variance(line.fit, x.value()))));
    }
    return at;
}

/// How far off the centre line a bridge, tailpiece or end pin stands whose middle is at (x, y); positive toward the
/// treble. `place_error` is the standard uncertainty of `y`.
template <class R = double>
[[nodiscard]] basic_place_across<R> off_centre(const basic_centre_line<R>& line, param<length<R>> x, param<length<R>> y,
                                               param<length<R>> place_error = length<R>()) {
    require("y", y, any_finite<unit::length>());
    require("place error", place_error, at_least(0 * units::mm));
    basic_place_across<R> off = centre_at(line, x);
    off.y = y - off.y;
    if (off.uncertainty) { off.uncertainty = hypot(*off.uncertainty, length<R>(place_error)); }
    return off;
}

} // namespace tautline
