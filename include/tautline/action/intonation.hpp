#pragma once
/// @file
/// What a string sounds when it is pressed at each fret, and how far that is off.
///
/// Pressing stretches the string: it runs from the nut over the crests down to the finger and on to the saddle. That
/// raises its tension and thins it, and its stiffness counts more on the shorter length. The open string is taken as
/// tuned: it sounds its pitch in whatever geometry is given.
///
/// Source: M. B. Anderson and R. G. Beausoleil, "Classical guitar intonation and compensation", J. Acoust. Soc. Am.
/// 156(1), 683 (2024), with exact path lengths, the crests behind the finger, press depth and shared afterlength added.

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <span>

#include "../core/interval.hpp"
#include "../core/number_row.hpp"
#include "height.hpp"
#include "sounding_string.hpp"
#include "taut_behind_finger.hpp"

namespace tautline {

/// Where and how deep a finger presses. Calibrated: both are habits of a player, and the defaults have no source.
template <class R = double>
struct basic_finger_press {
    using real = R;
    /// From the fret's crest back to the finger. Never more than three quarters of the way to the fret before: further
    /// back the finger would stand on that fret.
    field<length<R>> behind{length<R>::from_value(number<R>(10e-3L))};
    field<length<R>> depth{length<R>::from_value(number<R>(0.1e-3L))}; ///< of the string below the crest, at the finger

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("behind", between(0 * units::mm, 50 * units::mm).fair_default("common practice"), self.behind...);
        visit("depth", between(0 * units::mm, 10 * units::mm).fair_default("common practice"), self.depth...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (!in_all_lanes(number<R>(0) < behind.value()) && !in_all_lanes(depth.value() <= number<R>(0))) {
            report("behind", "must be more than 0 mm where the finger presses deeper than the crest");
        }
    }
};
using finger_press = basic_finger_press<double>;

/// What each fret is meant to sound: into how many equal steps an octave is divided, and which of them each fret is for.
struct meant_steps {
    int per_octave = 12;          ///< equal steps, at least 1
    std::span<const int> frets{}; ///< the step of each fret, fret 1 first; empty: fret n is for step n

    /// @{
    /// Every fret is for the step of its number.
    constexpr meant_steps() = default;
    constexpr meant_steps(int steps_per_octave) : per_octave(steps_per_octave) {}
    /// @}
    /// Each fret is for the step that the list names.
    constexpr meant_steps(int steps_per_octave, std::span<const int> of_frets)
        : per_octave(steps_per_octave), frets(of_frets) {}

    /// How many octaves above the open string a fret (from 1) is meant to sound.
    [[nodiscard]] constexpr double octaves(std::size_t fret) const {
        return (frets.empty() ? static_cast<double>(fret) : static_cast<double>(frets[fret - 1])) / per_octave;
    }
};

/// One pressed note.
template <class R = double>
struct basic_pressed_note {
    using real = R;
    frequency<R> pitch{}; ///< what it sounds
    interval<R> error{};  ///< from the step that the fret is for; positive: sharp
    force<R> tension{};   ///< while pressed
    length<R> stretch{};  ///< of the whole string, caused by pressing
    length<R> speaking{}; ///< from crest to saddle

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("pitch", self.pitch...);
        visit("error", self.error...);
        visit("tension", self.tension...);
        visit("stretch", self.stretch...);
        visit("speaking", self.speaking...);
    }
};
using pressed_note = basic_pressed_note<double>;

namespace kernel {

/// Length of a string in plan for each unit along x: more than 1 where strings spread.
template <class R>
[[nodiscard]] R plan_factor(const basic_string_line<R>& s) {
    const R spread = ratio(s.saddle_y - s.nut_y, s.saddle_x - s.nut_x);
    return sqrt(R(number<R>(1) + spread * spread));
}

/// The open string in its geometry. All its pressed notes start from it.
template <class R>
struct basic_open_string {
    R plan{};                          ///< plan length for each unit along x
    length<R> speaking{};              ///< from nut to saddle
    force<R> tension{};                ///< at which it sounds its pitch, stiffness included
    R strain{};                        ///< under that tension
    curvature<R> strain_per_stretch{}; ///< rise of the strain for each length that the speaking length is stretched by
    R stretched{};                     ///< its length for each unit of slack length
    bu::quantity<unit::length_per_mass, R> slack_length_per_mass{}; ///< of the string before it was stretched
    R per_hertz{};                                                  ///< 1 / its pitch
    held_ends<R> fretted{};                                         ///< how its ends hold it when it is pressed

    /// The same in another number type.
    template <class V>
    [[nodiscard]] basic_open_string<V> as() const {
        return {.plan = V(plan),
                .speaking = over<V>(speaking),
                .tension = over<V>(tension),
                .strain = V(strain),
                .strain_per_stretch = over<V>(strain_per_stretch),
                .stretched = V(stretched),
                .slack_length_per_mass = over<V>(slack_length_per_mass),
                .per_hertz = V(per_hertz),
                .fretted = fretted.template as<V>()};
    }
};
template <class R>
[[nodiscard]] basic_open_string<R> open_string(const basic_sounding_string<R>& string, const basic_string_line<R>& line,
                                               const held_open<R>& held, const held_ends<R>& fretted) {
    const R plan = plan_factor(line);
    const length<R> speaking = run_length<R>(line.saddle_x - line.nut_x, line.saddle_z - line.nut_z, plan);
    const force<R> tension = kernel::tension_at_pitch<R>(held, speaking);
    const R strain = ratio(tension, string.axial_stiffness);
    const R one = number<R>(1), stretched = one + strain;
    return {.plan = plan,
            .speaking = speaking,
            .tension = tension,
            .strain = strain,
            .strain_per_stretch = stretched / length<R>(speaking + string.shared_afterlength),
            .stretched = stretched,
            .slack_length_per_mass = one / linear_density<R>(string.mass_per_length * stretched),
            .per_hertz = one / string.open_pitch.value(),
            .fretted = fretted};
}
template <class R>
[[nodiscard]] basic_open_string<R> open_string(const basic_sounding_string<R>& string, const basic_string_line<R>& line) {
    return open_string<R>(string, line, held_open<R>(string), held_by<R>(string.fret_end, string.saddle_end));
}

/// Where the finger presses: behind fret `fret` (from 1), below its crest.
template <class S>
struct finger_place {
    length<S> x{}, z{};
    length<S> behind{}; ///< from the crest back to the finger
};
template <class S, class R>
[[nodiscard]] finger_place<S> finger_at(const basic_string_line<S>& line, const basic_finger_press<S>& finger,
                                        std::span<const length<R>> crest_x, std::span<const length<R>> crest_z,
                                        std::size_t fret) {
    const length<S> x = over<S>(crest_x[fret - 1]);
    const length<S> before = fret > 1 ? over<S>(crest_x[fret - 2]) : length<S>(line.nut_x);
    const length<S> behind = min(length<S>(finger.behind), number<S>(0.75L) * (x - before));
    return {x - behind, over<S>(crest_z[fret - 1]) - finger.depth, behind};
}

/// The note over a crest that is meant to sound so many octaves above the open string. `taut` is the length of the string
/// from the finger back to the nut.
template <class S>
[[nodiscard]] basic_pressed_note<S> pressed_note(const basic_sounding_string<S>& string, const basic_string_line<S>& line,
                                                 const basic_open_string<S>& open, const basic_finger_press<S>& finger,
                                                 const length<S>& behind, const length<S>& taut, const length<S>& crest_x,
                                                 const length<S>& crest_z, const S& octaves) {
    const length<S> speaking = run_length<S>(line.saddle_x - crest_x, line.saddle_z - crest_z, open.plan);
    const length<S> stretch = speaking + run_length<S>(behind, finger.depth, open.plan) + taut - open.speaking;
    const S more = stretch * open.strain_per_stretch;
    basic_pressed_note<S> note;
    note.stretch = stretch;
    note.speaking = speaking;
    note.tension = open.tension + more * string.axial_stiffness;
    note.pitch = lowest_partial<S>(open.slack_length_per_mass * S(open.stretched + more), speaking, note.tension,
                                   string.bending_stiffness, open.fretted);
    note.error = interval<S>::from_cents(by_local_slopes(
        [&](const auto& pitch, const auto& per_hertz) __attribute__((always_inline)) {
            using D = std::remove_cvref_t<decltype(pitch)>;
            return std::array<D, 1>{number<D>(1200) * (log2(D(pitch * per_hertz)) - D(value_of(octaves)))};
        },
        note.pitch.value(), open.per_hertz)[0]);
    return note;
}
/// The note at fret `fret` (from 1). The crests may have a plainer number type than the string: a search can then vary the
/// string over crests that stay where they are.
template <class S, class R>
[[nodiscard]] basic_pressed_note<S> pressed_note(const basic_sounding_string<S>& string, const basic_string_line<S>& line,
                                                 const basic_open_string<S>& open, const basic_finger_press<S>& finger,
                                                 std::span<const length<R>> crest_x, std::span<const length<R>> crest_z,
                                                 std::size_t fret, const meant_steps& meant) {
    const auto place = finger_at<S, R>(line, finger, crest_x, crest_z, fret);
    return pressed_note<S>(string, line, open, finger, place.behind,
                           taut_length<S, R>(line, crest_x, crest_z, fret - 1, place.x, place.z, open.plan),
                           over<S>(crest_x[fret - 1]), over<S>(crest_z[fret - 1]), number<S>(meant.octaves(fret)));
}

/// What a note needs to know of its fret and of the string behind it.
template <class R>
struct fretting {
    length<R> x{}, z{};   ///< the crest
    length<R> behind{};   ///< from the crest back to the finger
    length<R> dx{}, dz{}; ///< the string from the finger back to what it meets first
    length<R> beyond{};   ///< its length from there to the nut
    R octaves{};          ///< above the open string that the fret is meant to sound
};
/// The fretting at fret i, counted from 0; the hull holds the crests before it. Where lanes of a pack meet different
/// crests, the whole length behind the finger counts as beyond.
template <class R>
[[nodiscard]] fretting<R> fretting_at(const basic_string_line<R>& line, const basic_finger_press<R>& finger,
                                      std::span<const length<R>> crest_x, std::span<const length<R>> crest_z, std::size_t i,
                                      const R& plan, measured_hull<R>& hull) {
    const auto place = finger_at<R, R>(line, finger, crest_x, crest_z, i + 1);
    fretting<R> at;
    at.x = crest_x[i];
    at.z = crest_z[i];
    at.behind = place.behind;
    if (const auto piece = hull.first_from(place.x, place.z)) {
        at.dx = piece->dx;
        at.dz = piece->dz;
        at.beyond = piece->beyond;
    } else {
        at.beyond = taut_length<R, R>(line, crest_x, crest_z, i, place.x, place.z, plan);
    }
    return at;
}
/// One note of a row of notes.
template <class V>
[[nodiscard]] auto note_at(const basic_pressed_note<V>& row, std::size_t place) {
    using R = std::remove_cvref_t<decltype(at_place(row.pitch.value(), place))>;
    basic_pressed_note<R> note;
    note.pitch = frequency<R>::from_value(at_place(row.pitch.value(), place));
    note.error = interval<R>::from_cents(at_place(row.error.cents(), place));
    note.tension = force<R>::from_value(at_place(row.tension.value(), place));
    note.stretch = length<R>::from_value(at_place(row.stretch.value(), place));
    note.speaking = length<R>::from_value(at_place(row.speaking.value(), place));
    return note;
}

/// A straight piece of string in plain numbers, and how its length changes with its ends.
template <class S>
struct plain_piece {
    S length{}, by_x{}, by_z{}, by_plan{};

    [[gnu::always_inline]] plain_piece(const S& dx, const S& dz, const S& plan) {
        const S along = dx * plan, zero = number<S>(0);
        length = root_or_zero<S>(along * along + dz * dz);
        const auto none = length <= zero;
        const S per_length = select(none, zero, S(number<S>(1) / select(none, number<S>(1), length)));
        by_x = along * plan * per_length;
        by_z = dz * per_length;
        by_plan = along * dx * per_length;
    }
};

/// The note at a fret for duals, by the formulas of `pressed_note`, each with its slopes by all that it comes from, so that
/// no dual is made on the way. `number` is that of the hull's corner which the string meets first behind the finger.
template <class R>
void note_by_slopes(const basic_sounding_string<R>& string, const basic_string_line<R>& line,
                    const basic_open_string<R>& open, const length<R>& behind, const length<R>& depth, const length<R>& x,
                    const length<R>& z, measured_hull<R>& behind_it, std::size_t corner, double octaves,
                    basic_pressed_note<R>& note) {
    using S = std::remove_cvref_t<decltype(open.plan.value)>;
    using D = typename local_number<R, 8>::type;
    const auto plain = [](const length<R>& q) { return q.value().value; };
    const length<R>&met_x = behind_it.hull().x(corner), &met_z = behind_it.hull().z(corner);
    const S plan = open.plan.value, one = number<S>(1);
    const plain_piece<S> ahead(plain(line.saddle_x) - plain(x), plain(line.saddle_z) - plain(z), plan),
        down(plain(behind), plain(depth), plan),
        back(plain(x) - plain(behind) - plain(met_x), plain(z) - plain(depth) - plain(met_z), plan);
    note.speaking =
        length<R>::from_value(from_slopes(ahead.length, {ahead.by_x, -ahead.by_x, ahead.by_z, -ahead.by_z, ahead.by_plan},
                                          line.saddle_x.value(), x.value(), line.saddle_z.value(), z.value(), open.plan));
    const length<R>& beyond = behind_it.along(corner);
    const S stretch = ahead.length + down.length + (back.length + plain(beyond)) - plain(open.speaking);
    note.stretch =
        length<R>::from_value(from_slopes(stretch,
                                          {one, down.by_x - back.by_x, down.by_z - back.by_z, back.by_x, -back.by_x,
                                           back.by_z, -back.by_z, down.by_plan + back.by_plan, one, -one},
                                          note.speaking.value(), behind.value(), depth.value(), x.value(), met_x.value(),
                                          z.value(), met_z.value(), open.plan, beyond.value(), open.speaking.value()));
    const S per_stretch = open.strain_per_stretch.value().value, rigidity = string.axial_stiffness.value().value;
    const S more = stretch * per_stretch, stretched = open.stretched.value + more;
    note.tension = force<R>::from_value(from_slopes(
        S(open.tension.value().value + more * rigidity), {one, per_stretch * rigidity, stretch * rigidity, more},
        open.tension.value(), note.stretch.value(), open.strain_per_stretch.value(), string.axial_stiffness.value()));
    const S slack = open.slack_length_per_mass.value().value;
    const auto variable = [](const R& q, std::size_t i) { return D::variable(q.value, i); };
    const limp_string<D> limp(D::variable(slack * stretched, 0), variable(note.speaking.value(), 1),
                              variable(note.tension.value(), 2), variable(string.bending_stiffness.value(), 3));
    const D pitch =
        limp.pitch *
        stiffness_series<D>(limp.share, {D(0), D(0), variable(open.fretted.by_1, 4), variable(open.fretted.by_2, 5),
                                         variable(open.fretted.by_3, 6), variable(open.fretted.by_4, 7)});
    const S by_mass = slope_by(pitch, 0), by_more = by_mass * slack;
    note.pitch = frequency<R>::from_value(from_slopes(
        pitch.value,
        {by_mass * stretched, by_more, by_more * per_stretch, by_more * stretch, slope_by(pitch, 1), slope_by(pitch, 2),
         slope_by(pitch, 3), slope_by(pitch, 4), slope_by(pitch, 5), slope_by(pitch, 6), slope_by(pitch, 7)},
        open.slack_length_per_mass.value(), open.stretched, note.stretch.value(), open.strain_per_stretch.value(),
        note.speaking.value(), note.tension.value(), string.bending_stiffness.value(), open.fretted.by_1, open.fretted.by_2,
        open.fretted.by_3, open.fretted.by_4));
    const S cents = number<S>(1200), share = number<S>(1200 * std::numbers::log2e_v<long double>);
    const S ratio_of_pitch = pitch.value * open.per_hertz.value;
    note.error = interval<R>::from_cents(from_slopes(S(cents * (log2(ratio_of_pitch) - number<S>(octaves))),
                                                     {share / pitch.value, share / open.per_hertz.value},
                                                     note.pitch.value(), open.per_hertz));
}
/// Whether the series tells how a string of duals sounds over a length that is no more than what sounds of it.
template <class R, class S>
[[nodiscard]] bool stays_limp(const basic_sounding_string<R>& string, const basic_open_string<R>& open, const S& shortest) {
    const S share = root_or_zero<S>(string.bending_stiffness.value().value / open.tension.value().value);
    return in_all_lanes(share < number<S>(0.99L) * series_limit<S>() * shortest);
}
/// The notes at all frets by `note_by_slopes`.
template <class R>
void intonation_by_slopes(const basic_sounding_string<R>& string, const basic_string_line<R>& line,
                          const basic_finger_press<R>& finger, std::span<const length<R>> crest_x,
                          std::span<const length<R>> crest_z, std::span<basic_pressed_note<R>> notes,
                          const meant_steps& meant) {
    const auto open = kernel::open_string(string, line);
    using S = std::remove_cvref_t<decltype(open.plan.value)>;
    measured_hull<R> hull(line, open.plan);
    length<R> nearer;
    for (std::size_t i = 0; i < crest_x.size(); ++i) {
        const length<R>&x = crest_x[i], &z = crest_z[i],
              &before = i > 0 ? crest_x[i - 1] : static_cast<const length<R>&>(line.nut_x);
        const length<R>* behind = &finger.behind;
        const auto far = number<S>(0.75L) * (x.value().value - before.value().value);
        if (!in_all_lanes(behind->value().value < far)) {
            nearer = min(*behind, number<R>(0.75L) * (x - before));
            behind = &nearer;
        }
        const std::size_t corner =
            hull.hull().first_from(x.value().value - behind->value().value, z.value().value - finger.depth.value().value);
        if (hull.hull().shared() && stays_limp(string, open, S(line.saddle_x.value().value - x.value().value))) {
            note_by_slopes<R>(string, line, open, *behind, finger.depth, x, z, hull, corner, meant.octaves(i + 1),
                              notes[i]);
        } else {
            notes[i] = pressed_note<R, R>(string, line, open, finger, crest_x, crest_z, i + 1, meant);
        }
        hull.add(x, z);
    }
}

/// The notes at all frets, as many side by side as a row holds. The hull grows from fret to fret, so all notes together
/// take only about as many steps as there are frets.
template <class R>
void intonation_in_rows(const basic_sounding_string<R>& string, const basic_string_line<R>& line,
                        const basic_finger_press<R>& finger, std::span<const length<R>> crest_x,
                        std::span<const length<R>> crest_z, std::span<basic_pressed_note<R>> notes,
                        const meant_steps& meant) {
    using V = row_of<R>;
    constexpr std::size_t W = places_in<V>;
    const auto open = kernel::open_string(string, line);
    const auto string_row = over<V>(string);
    const auto line_row = over<V>(line);
    const auto finger_row = over<V>(finger);
    const auto open_row = open.template as<V>();
    measured_hull<R> hull(line, open.plan);
    std::array<fretting<R>, W> at;
    const auto row_of_lengths = [&](length<R> fretting<R>::*which) {
        return quantity_row<V>([&](std::size_t k) { return at[k].*which; });
    };
    for (std::size_t first = 0; first < crest_x.size(); first += W) {
        const std::size_t count = std::min(W, crest_x.size() - first);
        for (std::size_t k = 0; k < count; ++k) {
            const std::size_t i = first + k;
            at[k] = fretting_at(line, finger, crest_x, crest_z, i, open.plan, hull);
            at[k].octaves = number<R>(meant.octaves(i + 1));
            hull.add(crest_x[i], crest_z[i]);
        }
        if constexpr (W > 1) {
            for (std::size_t k = count; k < W; ++k) { at[k] = at[k - 1]; } // beyond the last fret
        }
        const length<V> taut =
            run_length<V>(row_of_lengths(&fretting<R>::dx), row_of_lengths(&fretting<R>::dz), open_row.plan) +
            row_of_lengths(&fretting<R>::beyond);
        const auto found = pressed_note<V>(string_row, line_row, open_row, finger_row, row_of_lengths(&fretting<R>::behind),
                                           taut, row_of_lengths(&fretting<R>::x), row_of_lengths(&fretting<R>::z),
                                           row_from<V>([&](std::size_t k) { return at[k].octaves; }));
        for (std::size_t k = 0; k < count; ++k) { notes[first + k] = note_at(found, k); }
    }
}

/// The notes at all frets.
template <class R>
void intonation(const basic_sounding_string<R>& string, const basic_string_line<R>& line,
                const basic_finger_press<R>& finger, std::span<const length<R>> crest_x, std::span<const length<R>> crest_z,
                std::span<basic_pressed_note<R>> notes, const meant_steps& meant) {
    if constexpr (has_local_slopes<R, 8>) {
        intonation_by_slopes<R>(string, line, finger, crest_x, crest_z, notes, meant);
    } else {
        intonation_in_rows<R>(string, line, finger, crest_x, crest_z, notes, meant);
    }
}

} // namespace kernel

/// Checks a string, its line, the finger and the crests, as `pressed_note` and everything built on it need them.
template <class R = double>
void require_fretted(const basic_sounding_string<R>& string, const basic_string_line<R>& line,
                     const basic_finger_press<R>& finger, std::type_identity_t<std::span<const length<R>>> crest_x,
                     std::type_identity_t<std::span<const length<R>>> crest_z, const meant_steps& meant) {
    require_crests(line, crest_x, crest_z);
    require_valid(finger, "press");
    const length<R> open =
        kernel::run_length<R>(line.saddle_x - line.nut_x, line.saddle_z - line.nut_z, kernel::plan_factor(line));
    require_sounds<R>(string, open);
    require_that(meant.per_octave >= 1, "steps_per_octave", "must be at least 1");
    require_that(meant.frets.empty() || meant.frets.size() == crest_x.size(), "meant.frets", "must be one for each fret");
}

/// The note of a string pressed at one fret: pitch, error, tension, stretch and speaking length.
/// @param crest_x,crest_z crests under this string, fret 1 first, under load, wherever they really are
/// @param fret from 1
/// @param meant which equal step each fret is for; a single number means so many steps to the octave, fret n for step n
template <class R = double>
[[nodiscard]] basic_pressed_note<R>
pressed_at(const basic_sounding_string<R>& string, const basic_string_line<R>& line, const basic_finger_press<R>& finger,
           std::type_identity_t<std::span<const length<R>>> crest_x,
           std::type_identity_t<std::span<const length<R>>> crest_z, std::size_t fret, const meant_steps& meant = {}) {
    require_fretted(string, line, finger, crest_x, crest_z, meant);
    require_that(fret >= 1 && fret <= crest_x.size(), "fret", "must be the number of a fret");
    return kernel::pressed_note<R, R>(string, line, kernel::open_string(string, line), finger, crest_x, crest_z, fret,
                                      meant);
}

/// The notes of a string at all frets, written into `notes`, fret 1 first.
template <class R = double>
void intonation(const basic_sounding_string<R>& string, const basic_string_line<R>& line,
                const basic_finger_press<R>& finger, std::type_identity_t<std::span<const length<R>>> crest_x,
                std::type_identity_t<std::span<const length<R>>> crest_z,
                std::type_identity_t<std::span<basic_pressed_note<R>>> notes, const meant_steps& meant = {}) {
    require_fretted(string, line, finger, crest_x, crest_z, meant);
    require_that(notes.size() == crest_x.size(), "notes", "must have one entry for each fret");
    kernel::intonation<R>(string, line, finger, crest_x, crest_z, notes, meant);
}

} // namespace tautline
