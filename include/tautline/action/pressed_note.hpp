#pragma once
/// @file
/// What a string sounds when it is pressed at a fret, and how far that is off.
///
/// Pressing stretches the string: it runs from the nut over the crests down to the finger and on to the saddle. That
/// raises its tension and thins it, and its stiffness counts more on the shorter length. The open string is taken as
/// tuned: it sounds its pitch in whatever geometry is given.
///
/// Source: M. B. Anderson and R. G. Beausoleil, "Classical guitar intonation and compensation", J. Acoust. Soc. Am.
/// 156(1), 683 (2024), with exact path lengths, the crests behind the finger, press depth and shared afterlength added.

#include <cstddef>
#include <optional>
#include <span>

#include "../core/interval.hpp"
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
} // namespace kernel
} // namespace tautline
