#pragma once
/// @file
/// Two scales on one board (fanned frets). Each fret is the straight line through its places on the two outer strings.

#include "board.hpp"
#include "string_path.hpp"

namespace tautline {

/// The outer strings and their scale lengths. Each fret divides both strings in the same ratio.
template <class R = double>
struct basic_fan {
    using real = R;
    /// Nut to saddle along the outer bass and treble string, seen from above.
    needed<length<R>> bass_scale;
    needed<length<R>> treble_scale; ///< the same along the outer treble string
    /// The fret that stands square to the centre line; between two frets if it is not whole, 0 for a square nut.
    R square_fret = not_given<R>();
    int steps = 12;                       ///< equal steps to the octave
    int frets = not_counted;              ///< number of frets
    needed<length<R>> y_bass_at_nut;      ///< negative: on the bass side
    needed<length<R>> y_treble_at_nut;    ///< more than on the bass side
    needed<length<R>> y_bass_at_saddle;   ///< negative: on the bass side
    needed<length<R>> y_treble_at_saddle; ///< more than on the bass side

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("bass_scale", between(10 * units::mm, 3000 * units::mm), self.bass_scale...);
        visit("treble_scale", between(10 * units::mm, 3000 * units::mm), self.treble_scale...);
        visit("square_fret", between(0, 240), self.square_fret...);
        visit("steps", between(1, 120).fair_default("semitones"), self.steps...);
        visit("frets", between(0, 240), self.frets...);
        visit("y_bass_at_nut", between(-500 * units::mm, 500 * units::mm), self.y_bass_at_nut...);
        visit("y_treble_at_nut", between(-500 * units::mm, 500 * units::mm), self.y_treble_at_nut...);
        visit("y_bass_at_saddle", between(-500 * units::mm, 500 * units::mm), self.y_bass_at_saddle...);
        visit("y_treble_at_saddle", between(-500 * units::mm, 500 * units::mm), self.y_treble_at_saddle...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (!in_all_lanes(square_fret <= number<R>(static_cast<long double>(frets)))) {
            report("square_fret", messages::joined({"must be on the board: 0, the nut, to ", frets, ", the last fret"}));
        }
        if (!in_all_lanes(y_bass_at_nut.value() < y_treble_at_nut.value())) {
            report("y_treble_at_nut", "must lie on the treble side of the bass string");
        }
        if (!in_all_lanes(y_bass_at_saddle.value() < y_treble_at_saddle.value())) {
            report("y_treble_at_saddle", "must lie on the treble side of the bass string");
        }
        if (!in_all_lanes(abs(length<R>(y_bass_at_saddle - y_bass_at_nut)).value() < bass_scale.value())) {
            report("bass_scale", "must be more than the string runs sideways");
        }
        if (!in_all_lanes(abs(length<R>(y_treble_at_saddle - y_treble_at_nut)).value() < treble_scale.value())) {
            report("treble_scale", "must be more than the string runs sideways");
        }
    }
};
using fan = basic_fan<double>;

/// A point seen from above.
template <class R = double>
struct basic_plan_point {
    using real = R;
    length<R> x{}; ///< along the centre line
    length<R> y{}; ///< across, bass negative

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("x", between(-1000 * units::mm, 4000 * units::mm).fair_default("the middle of the nut"), self.x...);
        visit("y", between(-1000 * units::mm, 1000 * units::mm).fair_default("the middle of the nut"), self.y...);
    }
};
using plan_point = basic_plan_point<double>;

/// A fret, the nut or the saddle line: straight from a bass point to a treble point.
template <class R = double>
struct basic_fret_line {
    using real = R;
    basic_plan_point<R> bass{};   ///< its end at the outer bass string or bass edge
    basic_plan_point<R> treble{}; ///< its end at the outer treble string or treble edge

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("bass", self.bass...);
        visit("treble", self.treble...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (!in_all_lanes(bass.y.value() < treble.y.value())) {
            report("treble.y", "must lie on the treble side of the bass end");
        }
    }
};
using fret_line_across = basic_fret_line<double>;

/// The two outer strings; the nut line crosses the centre line at x = 0.
template <class R = double>
struct basic_outer_strings {
    basic_string_path<R> bass;   ///< from nut to saddle
    basic_string_path<R> treble; ///< from nut to saddle
};

namespace kernel {

/// How much a fret line leans: dx/dy, a plain ratio.
template <class R>
[[nodiscard]] constexpr R lean(const basic_fret_line<R>& l) {
    return ratio<unit::length, R>(l.treble.x - l.bass.x, l.treble.y - l.bass.y);
}
template <class R>
[[nodiscard]] constexpr length<R> x_at(const basic_fret_line<R>& l, const length<R>& y) {
    return l.bass.x + (y - l.bass.y) * lean(l);
}
template <class R>
[[nodiscard]] constexpr basic_plan_point<R> point_at_share(const basic_string_path<R>& p, const R& share) {
    return {p.x_at_nut + (p.x_at_saddle - p.x_at_nut) * share, p.y_at_nut + (p.y_at_saddle - p.y_at_nut) * share};
}

template <class R>
[[nodiscard]] constexpr basic_outer_strings<R> outer_strings(const basic_fan<R>& f) {
    const length<R> bass_side = f.y_bass_at_saddle - f.y_bass_at_nut;
    const length<R> treble_side = f.y_treble_at_saddle - f.y_treble_at_nut;
    const length<R> bass_run = sqrt(square(length<R>(f.bass_scale)) - square(bass_side));
    const length<R> treble_run = sqrt(square(length<R>(f.treble_scale)) - square(treble_side));
    const R share = number<R>(1) - exp2(R(-f.square_fret / number<R>(f.steps)));
    // Both outer strings reach the square fret at the same x.
    basic_fret_line<R> nut{.bass = {length<R>(), f.y_bass_at_nut},
                           .treble = {(bass_run - treble_run) * share, f.y_treble_at_nut}};
    const length<R> shift = kernel::x_at(nut, length<R>());
    return {.bass = {.y_at_nut = f.y_bass_at_nut,
                     .y_at_saddle = f.y_bass_at_saddle,
                     .x_at_nut = nut.bass.x - shift,
                     .x_at_saddle = nut.bass.x - shift + bass_run},
            .treble = {.y_at_nut = f.y_treble_at_nut,
                       .y_at_saddle = f.y_treble_at_saddle,
                       .x_at_nut = nut.treble.x - shift,
                       .x_at_saddle = nut.treble.x - shift + treble_run}};
}

/// Where a line across the board meets its edges, or stops `inside` of them.
template <class R>
[[nodiscard]] constexpr basic_fret_line<R> ends_inside(const basic_fret_line<R>& l, const basic_board<R>& b,
                                                       const length<R>& inside) {
    const R lean = kernel::lean(l), one = number<R>(1);
    const R taper = ratio<unit::length, R>((b.width_at_end - b.width_at_nut) / 2, b.board_length);
    const length<R> half = kernel::half_width_at(b, kernel::x_at(l, length<R>())) - inside;
    const length<R> bass = -half / R(one + taper * lean), treble = half / R(one - taper * lean);
    return {.bass = {kernel::x_at(l, bass), bass}, .treble = {kernel::x_at(l, treble), treble}};
}
template <class R>
[[nodiscard]] constexpr basic_plan_point<R> crossing(const basic_fret_line<R>& l, const basic_string_path<R>& p) {
    const R lean = kernel::lean(l), slope = kernel::path_slope(p);
    const length<R> x = (l.bass.x + (p.y_at_nut - p.x_at_nut * slope - l.bass.y) * lean) / R(number<R>(1) - lean * slope);
    return {x, kernel::y_at(p, x)};
}

/// The line that leaves the share `left` of both outer strings between it and the saddle: 1 is the nut, 0 the saddle.
template <class R>
[[nodiscard]] constexpr basic_fret_line<R> line_at(const basic_outer_strings<R>& s, const R& left) {
    return {.bass = kernel::point_at_share(s.bass, R(number<R>(1) - left)),
            .treble = kernel::point_at_share(s.treble, R(number<R>(1) - left))};
}

} // namespace kernel

/// Where the outer strings run.
template <class R>
[[nodiscard]] basic_outer_strings<R> outer_strings(const basic_fan<R>& f) {
    require_valid(f, "fan");
    return kernel::outer_strings(f);
}

/// Fret `n` from outer string to outer string; 0 is the nut.
template <class R>
[[nodiscard]] basic_fret_line<R> fret_line(const basic_fan<R>& f, int n) {
    require_valid(f, "fan");
    kernel::require_fret(n, f.frets);
    return kernel::line_at(kernel::outer_strings(f), kernel::share_left<R>(n, f.steps));
}

/// The line of the saddles before compensation.
template <class R>
[[nodiscard]] basic_fret_line<R> saddle_line(const basic_fan<R>& f) {
    require_valid(f, "fan");
    return kernel::line_at(kernel::outer_strings(f), R{});
}

/// How far along the board a fret line is at `y` off the centre line.
template <class R>
[[nodiscard]] constexpr length<R> x_at(const basic_fret_line<R>& l, param<length<R>> y) {
    require("width of the fret line", length<R>(l.treble.y - l.bass.y), more_than(0 * units::mm));
    return kernel::x_at<R>(l, y);
}

/// How much a fret line leans: dx/dy, a plain ratio; 0 for a fret square to the centre line.
template <class R>
[[nodiscard]] constexpr R lean_of(const basic_fret_line<R>& l) {
    require("width of the fret line", length<R>(l.treble.y - l.bass.y), more_than(0 * units::mm));
    return kernel::lean(l);
}

/// Angle of a fret from square; positive when its treble end lies nearer to the saddle.
template <class R>
[[nodiscard]] angle<R> fret_angle(const basic_fret_line<R>& l) {
    require("width of the fret line", length<R>(l.treble.y - l.bass.y), more_than(0 * units::mm));
    return atan2(l.treble.x - l.bass.x, l.treble.y - l.bass.y);
}

/// Where a fret line meets the edges of a board of straight taper. These are the points to mark and cut to.
template <class R>
[[nodiscard]] basic_fret_line<R> fret_ends(const basic_fret_line<R>& l, const basic_board<R>& b) {
    require("width of the fret line", length<R>(l.treble.y - l.bass.y), more_than(0 * units::mm));
    require("board.board_length", b.board_length, more_than(0 * units::mm));
    const R taper = ratio<unit::length, R>((b.width_at_end - b.width_at_nut) / 2, b.board_length);
    const length<R> half = kernel::half_width_at(b, kernel::x_at(l, length<R>()));
    require("half width of the board at the fret", half, more_than(0 * units::mm));
    require("taper along a fret", R(taper * kernel::lean(l)), between(-0.99, 0.99));
    return kernel::ends_inside<R>(l, b, length<R>());
}

/// What a fret's ends are cut to, seen from above.
template <class R = double>
struct basic_end_angles {
    angle<R> bass{};   ///< between the fret and the board's bass edge, on the bridge's side of the fret
    angle<R> treble{}; ///< the same at the treble edge
};
using end_angles_of_fret = basic_end_angles<double>;

/// The angles between a fret and the edges of a board of straight taper, on the bridge's side of the fret: 90 deg where
/// it stands square to the edge. Bevel the fret's end, or cut its tang flush, to these angles.
template <class R>
[[nodiscard]] basic_end_angles<R> end_angles(const basic_fret_line<R>& l, const basic_board<R>& b) {
    (void)fret_ends(l, b); // called for its checks
    const R lean = kernel::lean(l), one = number<R>(1);
    const R taper = ratio<unit::length, R>((b.width_at_end - b.width_at_nut) / 2, b.board_length);
    return {.bass = angle<R>::from_value(atan2(R(one + lean * taper), R(lean - taper))),
            .treble = angle<R>::from_value(atan2(R(one - lean * taper), R(-lean - taper)))};
}

/// The path of a string between the outer strings, from its share of the way across at nut and saddle: 0 on the bass
/// string, 1 on the treble string.
template <class R>
[[nodiscard]] basic_string_path<R> path_between(const basic_fan<R>& f, const std::type_identity_t<R>& share_at_nut,
                                                const std::type_identity_t<R>& share_at_saddle) {
    const auto start = fret_line(f, 0);
    const auto end = saddle_line(f);
    const auto mix = [](const length<R>& a, const length<R>& b, const R& t) { return length<R>(a + (b - a) * t); };
    return {.y_at_nut = mix(start.bass.y, start.treble.y, share_at_nut),
            .y_at_saddle = mix(end.bass.y, end.treble.y, share_at_saddle),
            .x_at_nut = mix(start.bass.x, start.treble.x, share_at_nut),
            .x_at_saddle = mix(end.bass.x, end.treble.x, share_at_saddle)};
}

/// Where a string crosses a fret line.
template <class R>
[[nodiscard]] basic_plan_point<R> crossing(const basic_fret_line<R>& l, const basic_string_path<R>& p) {
    require("width of the fret line", length<R>(l.treble.y - l.bass.y), more_than(0 * units::mm));
    require("saddle beyond the nut", length<R>(p.x_at_saddle - p.x_at_nut), more_than(0 * units::mm));
    require("lean of the fret times slope of the string", R(kernel::lean(l) * kernel::path_slope(p)), between(-0.99, 0.99));
    return kernel::crossing(l, p);
}

/// How sharp (+) fret `n` is for a string of the fan, by length alone. It is 0 for a string that keeps the same share
/// of the way across from nut to saddle.
template <class R>
[[nodiscard]] interval<R> fret_error(const basic_fan<R>& f, const basic_string_path<R>& p, int n) {
    const auto at = crossing(fret_line(f, n), p);
    require("saddle beyond the fret", length<R>(p.x_at_saddle - at.x), more_than(0 * units::mm));
    const R left = ratio<unit::length, R>(p.x_at_saddle - at.x, p.x_at_saddle - p.x_at_nut);
    return interval<R>::from_cents(number<R>(-1200) * R(log2(left) + number<R>(static_cast<long double>(n) / f.steps)));
}

} // namespace tautline
