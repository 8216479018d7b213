#pragma once
/// @file
/// Where the frets stand along the scale: by N equal steps to the octave, by an old divisor rule, or at measured
/// places.

#include <optional>
#include <vector>

#include "../core/describe.hpp"
#include "../core/units.hpp"
#include "two_scales.hpp"

namespace tautline {

/// The places of the frets. They divide the octave into equal steps unless a divisor or measured places are given.
template <class R = double>
struct basic_scale {
    using real = R;
    /// Two scales, or places along both edges, of a board with fanned frets. Then leave out `scale_length`, `divisor`
    /// and `measured_places`.
    std::optional<basic_two_scales<R>> fan{};
    /// Twice the distance from nut to octave fret. With a divisor: the length that was divided.
    needed<length<R>> scale_length;
    /// Equal steps to the octave: 12 is usual, 24 gives quarter tones, 19 or 31 other equal temperaments.
    int steps = 12;
    /// Frets on the board, a zero fret not counted.
    int frets = not_counted;
    /// Old rule: the distance to the next fret is the remaining length over this divisor (18, 17.817, ...).
    std::optional<R> divisor{};
    /// Measured distance of each fret from the front face of the nut, first fret first. They overrule the rules above.
    /// Each fret then stands for the step of the octave nearest to its place, so a board may leave steps out, as
    /// diatonic boards do.
    std::vector<field<length<R>>> measured_places{};
    /// Whether a zero fret stands at the nut. The nut then only guides the strings.
    bool zero_fret = false;

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("fan", self.fan...);
        if (const bool one_scale = (... && !self.fan.has_value()); one_scale) {
            visit("scale_length", between(10 * units::mm, 3000 * units::mm), self.scale_length...);
        }
        visit("steps", between(1, 120).fair_default("semitones"), self.steps...);
        visit("frets", between(0, 240), self.frets...);
        visit("divisor", between(2, 1000), self.divisor...);
        visit("measured_places", between(0.1 * units::mm, 3000 * units::mm), self.measured_places...);
        visit("zero_fret", self.zero_fret...);
    }
    template <class Report>
    constexpr void rules(Report&& report) const {
        if (fan) {
            if (divisor) { report("divisor", "must be left out on a board of two scales"); }
            if (!measured_places.empty()) { report("measured_places", "must be left out on a board of two scales"); }
            if (fan->measured()) {
                report_edges(report);
                return;
            }
            if (!in_all_lanes(fan->square_fret <= number<R>(static_cast<long double>(frets)))) {
                report("fan.square_fret",
                       messages::joined({"must be on the board: 0, the nut, to ", frets, ", the last fret"}));
            }
            return;
        }
        if (measured_places.empty()) { return; }
        if (measured_places.size() != static_cast<std::size_t>(frets)) {
            report("measured_places", messages::joined({"must be one for each of the ", frets, " frets, but there are ",
                                                        measured_places.size()}));
        }
        for (std::size_t i = 0; i < measured_places.size(); ++i) {
            if (i > 0 && !in_all_lanes(is_less<unit::length, R>(measured_places[i - 1], measured_places[i]))) {
                report(messages::path_of("measured_places", i),
                       "must be further from the nut than the place of the fret before it");
            }
            if (!in_all_lanes(is_less<unit::length, R>(measured_places[i], scale_length))) {
                report(messages::path_of("measured_places", i), "must be less than the scale length");
            }
        }
    }

private:
    /// Rules for frets that are given by their places along both edges: their number and their order.
    template <class Report>
    constexpr void report_edges(Report&& report) const {
        if (frets < steps) {
            report("frets",
                   messages::joined({"must reach the octave, fret ", steps,
                                     ", where a fan is told by the places of its frets: the saddle is told from it"}));
        }
        if (fan->bass_places.size() == fan->treble_places.size() &&
            fan->bass_places.size() != static_cast<std::size_t>(frets < 0 ? 0 : frets)) {
            report("fan.bass_places", messages::joined({"must be one for each of the ", frets, " frets, but there are ",
                                                        fan->bass_places.size()}));
        }
    }
};
using scale = basic_scale<double>;

namespace kernel {

/// Share of the string left between fret n and the saddle, `2^(-n/N)`.
template <class R>
[[nodiscard]] constexpr R share_left(int n, int steps) {
    // The share is the same in every lane and has no derivatives.
    using T = scalar_of_t<R>;
    return R(exp2(T(number<T>(-static_cast<long double>(n) / steps))));
}

template <class R>
[[nodiscard]] constexpr length<R> equal_step_position(const length<R>& scale_length, int n, int steps) {
    return scale_length * R(number<R>(1) - share_left<R>(n, steps));
}

template <class R>
[[nodiscard]] constexpr length<R> fret_position(const basic_scale<R>& s, int n) {
    if (n == 0) { return length<R>(); }
    if (!s.measured_places.empty()) { return s.measured_places[static_cast<std::size_t>(n - 1)]; }
    if (s.divisor.has_value()) {
        const R one = number<R>(1);
        return s.scale_length * R(one - power(R(one - one / *s.divisor), n));
    }
    return kernel::equal_step_position<R>(s.scale_length, n, s.steps);
}

/// The step of the octave that a fret stands for. Measured places: the nearest step. Otherwise step n for fret n.
template <class R>
[[nodiscard]] constexpr int fret_step(const basic_scale<R>& s, int n) {
    if (n == 0 || s.measured_places.empty()) { return n; }
    // Only plain values decide on a whole number; all lanes of a pack must agree on it.
    const R left = ratio<unit::length, R>(s.scale_length - kernel::fret_position(s, n), s.scale_length);
    const auto by_place = value_of(R(number<R>(-static_cast<long double>(s.steps)) * log2(left)));
    using S = std::remove_cvref_t<decltype(by_place)>;
    const auto place = static_cast<double>(lanes_of<S>::get(by_place, 0)); // 0 or more
    const int below = static_cast<int>(place), step = place - below < 0.5 ? below : below + 1;
    (void)one_answer(number<S>(step - 0.5L) <= by_place && by_place <= number<S>(step + 0.5L));
    return step;
}

/// The fret that stands for the octave of the open string; of several the nearest to the octave's place; 0 where there
/// is none.
template <class R>
[[nodiscard]] constexpr int octave_fret(const basic_scale<R>& s) {
    int best = 0;
    for (int n = 1; n <= s.frets; ++n) {
        if (kernel::fret_step(s, n) != s.steps) { continue; }
        const auto off = [&](int fret) { return abs(R((kernel::fret_position(s, fret) * 2 - s.scale_length).value())); };
        if (best == 0 || one_answer(off(n) < off(best))) { best = n; }
    }
    return best;
}

/// Refuses a fanned board where a single scale is needed: its frets stand at other places under every string.
template <class R>
constexpr void require_one_scale(const basic_scale<R>& s, std::string_view where = "scale.fan") {
    require_that(!s.fan.has_value(), where, "must be left out here: what is asked is told of frets that stand square");
}

/// Checks a scale before every answer about its frets.
template <class R>
constexpr void require_scale(const basic_scale<R>& s) {
    constexpr_require_valid(s, "scale");
    kernel::require_one_scale(s);
}

/// Refuses a fret that the board does not have.
constexpr void require_fret(int n, int last) {
    if (n < 0 || n > last) {
        messages::refuse("fret", messages::count_text(n),
                         messages::joined({"must be one of the board's frets, 0 (the nut) to ", last}));
    }
}

} // namespace kernel

/// Distance of fret `n` from the nut for equal steps, `S (1 - 2^(-n/N))`. `n` >= 0, `steps` >= 1.
[[nodiscard]] constexpr auto equal_step_position(a_length auto scale_length, int n, int steps = 12) {
    using R = common_real_t<decltype(scale_length)>;
    require("scale length", over<R>(scale_length), more_than(0 * units::mm));
    require_that(n >= 0, "fret", "must be 0 or more", n);
    require_that(steps >= 1, "steps", "must be 1 or more", steps);
    return kernel::equal_step_position<R>(over<R>(scale_length), n, steps);
}
/// Refused: other kinds, or these in another order.
template <of_any_kind Given>
requires(!a_length<Given>) messages::wanted_are<messages::LENGTH, messages::WHOLE_NUMBER> equal_step_position(Given, int,
                                                                                                              int = 12)
TAUTLINE_REFUSED("wanted are a LENGTH and a whole number: equal_step_position(25.5*inch, 12)");

/// Refused: a fret that is no whole number. `position_of_interval` takes any interval.
template <std::floating_point Given>
messages::wanted_are<messages::LENGTH, messages::WHOLE_NUMBER> equal_step_position(a_length auto, Given, int = 12)
    TAUTLINE_REFUSED("wanted are a LENGTH and a whole number: equal_step_position(25.5*inch, 12)");

/// Distance from the nut at which a stopped string sounds an interval of c cents above the open string, by length
/// alone: `S (1 - 2^(-c/1200))`. It is the place of a fret in any division of the octave, even or uneven. Such places
/// go into `measured_places`. Scale length > 0, interval 0 to 12 000 cents, else `invalid_input`.
template <class S>
[[nodiscard]] constexpr auto position_of_interval(a_length auto scale_length, const interval<S>& above_open) {
    using R = common_real_t<decltype(scale_length), length<S>>;
    require("scale length", over<R>(scale_length), more_than(0 * units::mm));
    require("interval", above_open, between(0 * units::cents, 12000 * units::cents));
    const R octaves = static_cast<R>(above_open.cents()) * number<R>(1 / 1200.0L);
    return length<R>(over<R>(scale_length) * R(number<R>(1) - exp2(R(-octaves))));
}
/// Refused: other kinds, or these in another order.
template <of_any_kind Given, class S>
requires(!a_length<Given>) messages::wanted_are<messages::LENGTH, messages::INTERVAL> position_of_interval(
    Given, const interval<S>&)
TAUTLINE_REFUSED("wanted are a LENGTH and an INTERVAL: position_of_interval(25.5*inch, 700*cents)");

/// Distance x of fret `n` from the original front face of the nut, along the centre line; 0 for the nut itself.
/// `n` from 0 to the number of frets. Throws `invalid_input` for any other, and for all that is wrong with the scale; so
/// do the other questions about one fret.
template <class R = double>
[[nodiscard]] constexpr length<R> fret_position(const basic_scale<R>& s, int n) {
    kernel::require_scale(s);
    kernel::require_fret(n, s.frets);
    return kernel::fret_position(s, n);
}

/// Distances of frets 0 (the nut) to the last.
template <class R = double>
[[nodiscard]] std::vector<length<R>> fret_positions(const basic_scale<R>& s) {
    kernel::require_scale(s);
    std::vector<length<R>> x;
    for (int n = 0; n <= s.frets; ++n) { x.push_back(kernel::fret_position(s, n)); }
    return x;
}

/// Distances from each fret to the next; the first is from the nut to fret 1.
template <class R = double>
[[nodiscard]] std::vector<length<R>> fret_spacings(const basic_scale<R>& s) {
    const auto x = fret_positions(s);
    std::vector<length<R>> gaps;
    for (std::size_t n = 1; n < x.size(); ++n) { gaps.push_back(x[n] - x[n - 1]); }
    return gaps;
}

/// The step of the octave that fret `n` stands for (0: the nut): step n, or the nearest step where places were
/// measured.
template <class R = double>
[[nodiscard]] constexpr int fret_step(const basic_scale<R>& s, int n) {
    kernel::require_scale(s);
    kernel::require_fret(n, s.frets);
    return kernel::fret_step(s, n);
}

/// The fret that stands for the octave of the open string; nothing where the board has none.
template <class R = double>
[[nodiscard]] constexpr std::optional<int> octave_fret(const basic_scale<R>& s) {
    kernel::require_scale(s);
    const int n = kernel::octave_fret(s);
    return n > 0 ? std::optional(n) : std::nullopt;
}

/// Twice the distance of the octave fret from the nut: a string of this length sounds the octave there. For equal steps
/// it is the scale length. For an old divisor such as 18 it is less than the length that was divided. Needs the octave
/// fret on the board.
template <class R = double>
[[nodiscard]] constexpr length<R> octave_length(const basic_scale<R>& s) {
    const auto octave = octave_fret(s);
    require_that(octave.has_value(), "scale.frets", "must reach the octave of the open string");
    return kernel::fret_position(s, *octave) * 2;
}

/// How far fret `n` is off the equal step that it stands for, by length alone (no stretch, no stiffness). The saddle
/// stands at `saddle_x` from the nut, beyond the fret. Positive is sharp: the fret stands too near the saddle.
template <class R = double>
[[nodiscard]] constexpr interval<R> fret_error(const basic_scale<R>& s, int n, param<length<R>> saddle_x) {
    const length<R> x = fret_position(s, n);
    require("saddle beyond the fret", length<R>(saddle_x - x), more_than(0 * units::mm));
    const R octaves = log2(R(ratio<unit::length, R>(saddle_x, saddle_x - x)));
    const long double meant = static_cast<long double>(kernel::fret_step(s, n)) / s.steps;
    return interval<R>::from_cents(number<R>(1200) * R(octaves - number<R>(meant)));
}

/// The divisor that gives equal steps, `1/(1 - 2^(-1/N))`; 17.817154 for 12 steps. `steps` >= 1.
template <real R = double>
[[nodiscard]] constexpr R equal_step_divisor(int steps = 12) {
    require_that(steps >= 1, "steps", "must be 1 or more", steps);
    return number<R>(1) / R(number<R>(1) - kernel::share_left<R>(1, steps));
}

} // namespace tautline
