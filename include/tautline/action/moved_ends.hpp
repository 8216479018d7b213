#pragma once
/// @file
/// Where the saddle (and the nut) must stand for a string to play in tune.
///
/// Source: zero error at the octave fret, or least squares over a range of frets, as in M. B. Anderson and R. G.
/// Beausoleil, J. Acoust. Soc. Am. 156(1), 683 (2024). Gauss-Newton steps on the whole model are used here instead of its
/// linear form.

#include <optional>
#include <type_traits>
#include <vector>

#include "../core/root.hpp"
#include "intonation.hpp"

namespace tautline {

/// How a string's ends are moved.
template <class R = double>
struct basic_moved_ends {
    using real = R;
    length<R> setback{};            ///< of the saddle from where it stood; positive is away from the nut
    length<R> nut_advance{};        ///< of the nut from where it stood; positive is toward the saddle
    interval<R> root_mean_square{}; ///< of the errors that remain over the chosen frets
};
using moved_ends = basic_moved_ends<double>;

/// The line with its ends moved; their heights stay.
template <class R = double>
[[nodiscard]] constexpr basic_string_line<R> moved(basic_string_line<R> line, const basic_moved_ends<R>& by) {
    line.nut_x = line.nut_x + by.nut_advance;
    line.saddle_x = line.saddle_x + by.setback;
    return line;
}

namespace kernel {

/// A string with its line, finger and finger's place: what a moved saddle is reckoned from.
template <class R>
struct held_string {
    basic_sounding_string<R> string;
    basic_string_line<R> line;
    basic_finger_press<R> finger{};
    held_open<R> held{};
    held_ends<R> fretted{};
    finger_place<R> place{};

    /// The same in another number type.
    template <class D>
    [[nodiscard]] held_string<D> as() const {
        return {over<D>(string),          over<D>(line),
                over<D>(finger),          held.template as<D>(),
                fretted.template as<D>(), {over<D>(place.x), over<D>(place.z), over<D>(place.behind)}};
    }
};

/// The note at one fret while the saddle moves. Nut, finger and crests keep their places. The string behind the finger
/// keeps its length too, but for what its spread in plan changes.
template <class R>
class moving_saddle {
public:
    /// @param crest_x,crest_z crests from fret 1 up to the pressed fret
    moving_saddle(const basic_sounding_string<R>& string, const basic_string_line<R>& line,
                  const basic_finger_press<R>& finger, std::span<const length<R>> crest_x,
                  std::span<const length<R>> crest_z, const meant_steps& meant)
        : crest_x_(crest_x), crest_z_(crest_z), meant_(meant),
          hull_(line), at_{string,
                           line,
                           finger,
                           held_open<R>(string),
                           held_by<R>(string.fret_end, string.saddle_end),
                           finger_at<R, R>(line, finger, crest_x, crest_z, crest_x.size())} {
        for (std::size_t i = 0; i + 1 < crest_x.size(); ++i) { hull_.add(crest_x[i], crest_z[i]); }
    }

    /// The note with the saddle further back by `setback`, in metres; D is R or `dual<R, 1>`.
    template <class D>
    [[nodiscard]] basic_pressed_note<D> note(const D& setback) {
        const held_string<D>& s = over_type<D>();
        basic_string_line<D> here = s.line;
        here.saddle_x = here.saddle_x + length<D>::from_value(setback);
        const auto open = kernel::open_string<D>(s.string, here, s.held, s.fretted);
        const std::size_t fret = crest_x_.size();
        auto taut = hull_.template length_from<D>(at_.place.x, at_.place.z, open.plan);
        if (!taut) { taut = taut_length<D, R>(here, crest_x_, crest_z_, fret - 1, s.place.x, s.place.z, open.plan); }
        return pressed_note<D>(s.string, here, open, s.finger, s.place.behind, *taut, over<D>(crest_x_.back()),
                               over<D>(crest_z_.back()), number<D>(meant_.octaves(fret)));
    }
    /// The setback, in metres, at which the error is zero. The search starts from the value that would be right if
    /// pressing stretched the string alike wherever the saddle stands.
    /// @param as_is what the note sounds over the saddle where it stands
    [[nodiscard]] R setback_in_tune(const basic_pressed_note<R>& as_is) {
        const R one = number<R>(1), open_length = (at_.line.saddle_x - at_.line.nut_x).value();
        const R start = as_is.error.cents() * number<R>(std::numbers::ln2_v<long double> / 1200) /
                        R(one / as_is.speaking.value() - one / open_length);
        const auto error = [&](const auto& setback) { return note(setback).error.cents(); };
        if constexpr (derivatives_in<R> == 0) {
            return secant_root<R>(error, number<R>(0), as_is.error.cents(), start, open_length);
        } else {
            return newton_root<R>(error, start, R(number<R>(1e-7L) * open_length));
        }
    }

private:
    template <class D>
    [[nodiscard]] const held_string<D>& over_type() {
        if constexpr (std::is_same_v<D, R>) {
            return at_;
        } else {
            // Made once for all steps of a search.
            if (!varied_) { varied_ = at_.template as<D>(); }
            return *varied_;
        }
    }
    std::span<const length<R>> crest_x_, crest_z_;
    meant_steps meant_;
    taut_hull<R> hull_;
    held_string<R> at_{};
    std::optional<held_string<dual<R, 1>>> varied_{};
};

/// @param as_is the note at that fret over the saddle where it stands
template <class R>
[[nodiscard]] length<R> setback_for_fret(const basic_sounding_string<R>& string, const basic_string_line<R>& line,
                                         const basic_finger_press<R>& finger, std::span<const length<R>> crest_x,
                                         std::span<const length<R>> crest_z, std::size_t fret, const meant_steps& meant,
                                         const basic_pressed_note<R>& as_is) {
    moving_saddle<R> moving(string, line, finger, crest_x.first(fret), crest_z.first(fret), meant);
    using S = search_t<R>;
    constexpr int order = derivatives_in<R>;
    if constexpr (std::is_same_v<S, R> || order > 1) {
        return length<R>::from_value(moving.setback_in_tune(as_is));
    } else {
        // The setback is found in plain numbers. Its derivatives by the inputs follow from the error's own derivatives
        // and slope there (implicit function theorem).
        std::vector<length<S>> x, z;
        for (std::size_t i = 0; i < fret; ++i) {
            x.push_back(tautline::searched(crest_x[i]));
            z.push_back(tautline::searched(crest_z[i]));
        }
        moving_saddle<S> seen(tautline::searched(string), tautline::searched(line), tautline::searched(finger), x, z,
                              meant);
        const S found = seen.setback_in_tune(tautline::searched(as_is));
        const S slope = seen.note(dual<S, 1>::variable(found, 0)).error.cents().partial[0];
        const R error = moving.note(R(found)).error.cents();
        return length<R>::from_value(R(found) - (error - without_derivatives(error)) / R(slope));
    }
}

template <class R>
[[nodiscard]] basic_moved_ends<R> least_squares_ends(const basic_sounding_string<R>& string,
                                                     const basic_string_line<R>& line, const basic_finger_press<R>& finger,
                                                     std::span<const length<R>> crest_x, std::span<const length<R>> crest_z,
                                                     std::size_t first, std::size_t last, bool move_nut,
                                                     const meant_steps& meant) {
    using D = dual<R, 2>;
    const auto string_d = over<D>(string);
    const auto finger_d = over<D>(finger);
    const auto line_d = over<D>(line);
    const held_open<D> held(string_d);
    const auto fretted = held_by<D>(string_d.fret_end, string_d.saddle_end);
    R setback = number<R>(0), advance = number<R>(0), squares = number<R>(0);
    constexpr int steps = 5;
    for (int step = 0; step <= steps; ++step) {
        basic_string_line<D> here = line_d;
        here.saddle_x = here.saddle_x + length<D>::from_value(D::variable(setback, 0));
        here.nut_x = here.nut_x + length<D>::from_value(D::variable(advance, 1));
        R ss = number<R>(0), sn = number<R>(0), nn = number<R>(0), se = number<R>(0), ne = number<R>(0);
        squares = number<R>(0);
        const auto open = kernel::open_string(string_d, here, held, fretted);
        for (std::size_t n = first; n <= last; ++n) {
            const D e = pressed_note<D, R>(string_d, here, open, finger_d, crest_x, crest_z, n, meant).error.cents();
            ss += e.partial[0] * e.partial[0];
            sn += e.partial[0] * e.partial[1];
            nn += e.partial[1] * e.partial[1];
            se += e.partial[0] * e.value;
            ne += e.partial[1] * e.value;
            squares += e.value * e.value;
        }
        if (step == steps) { break; } // the last pass only measures what is left
        if (move_nut) {
            const R determinant = ss * nn - sn * sn;
            setback = setback - (se * nn - ne * sn) / determinant;
            advance = advance - (ne * ss - se * sn) / determinant;
        } else {
            setback = setback - se / ss;
        }
    }
    const R count = number<R>(static_cast<long double>(last - first + 1));
    return {length<R>::from_value(setback), length<R>::from_value(advance),
            interval<R>::from_cents(sqrt(R(squares / count)))};
}

/// Whether a string with its ends so moved is still playable: the moves are finite, the saddle lies beyond the last fret,
/// the nut before the first, and neither has moved by more than a tenth of the length.
template <class R>
[[nodiscard]] bool within_reach(const basic_string_line<R>& line, const basic_moved_ends<R>& c,
                                std::span<const length<R>> crest_x) {
    const length<R> limit = number<R>(0.1L) * (line.saddle_x - line.nut_x);
    // What is not finite fails this test too.
    return one_answer(abs(c.setback).value() < limit.value() && abs(c.nut_advance).value() < limit.value() &&
                      crest_x.back().value() < (line.saddle_x + c.setback).value() &&
                      (line.nut_x + c.nut_advance).value() < crest_x.front().value());
}

} // namespace kernel

/// Setback of the saddle that brings one fret (usually the octave's) in tune. Returns nothing where no place within a
/// tenth of the length does. The saddle's height is held.
/// @param line the string as it runs now; the setback is counted from there, positive away from the nut
/// @param fret from 1
template <class R = double>
[[nodiscard]] std::optional<length<R>>
setback_for_fret(const basic_sounding_string<R>& string, const basic_string_line<R>& line,
                 const basic_finger_press<R>& finger, std::type_identity_t<std::span<const length<R>>> crest_x,
                 std::type_identity_t<std::span<const length<R>>> crest_z, std::size_t fret = 12,
                 const meant_steps& meant = {}) {
    require_fretted(string, line, finger, crest_x, crest_z, meant);
    kernel::require_fret_number("fret", fret, 1, crest_x.size());
    basic_moved_ends<R> c;
    const auto as_is =
        kernel::pressed_note<R, R>(string, line, kernel::open_string(string, line), finger, crest_x, crest_z, fret, meant);
    c.setback = kernel::setback_for_fret<R>(string, line, finger, crest_x, crest_z, fret, meant, as_is);
    if (!kernel::within_reach<R>(line, c, crest_x)) { return std::nullopt; }
    return c.setback;
}

/// Setback alone, or setback and nut advance together, with the least sum of squared errors from fret `first` to fret
/// `last`. Returns nothing where the best place is out of reach. Heights of nut and saddle are held.
/// @param move_nut false: only the saddle moves
template <class R = double>
[[nodiscard]] std::optional<basic_moved_ends<R>>
ends_moved_over(const basic_sounding_string<R>& string, const basic_string_line<R>& line,
                const basic_finger_press<R>& finger, std::type_identity_t<std::span<const length<R>>> crest_x,
                std::type_identity_t<std::span<const length<R>>> crest_z, std::size_t first, std::size_t last,
                bool move_nut, const meant_steps& meant = {}) {
    require_fretted(string, line, finger, crest_x, crest_z, meant);
    require_that(first >= 1 && first <= last && last <= crest_x.size(), "first and last",
                 "must be numbers of frets, in this order");
    require_that(!move_nut || first < last, "last", "must be a later fret than the first where nut and saddle both move");
    const auto c = kernel::least_squares_ends<R>(string, line, finger, crest_x, crest_z, first, last, move_nut, meant);
    if (!kernel::within_reach<R>(line, c, crest_x)) { return std::nullopt; }
    return c;
}

} // namespace tautline
