#pragma once
/// @file
/// What a string sounds when pressed at each fret, and how far that is off.
///
/// Pressing stretches the string (over the crests to the finger and on to the saddle), which raises its tension and thins
/// it; stiffness counts more on the shorter length. The string is taken as tuned: open, it sounds its pitch in whatever
/// geometry it is given.
///
/// Source: M. B. Anderson and R. G. Beausoleil, "Classical guitar intonation and compensation", J. Acoust. Soc. Am.
/// 156(1), 683 (2024), with exact path lengths, the crests behind the finger, press depth and shared afterlength added.

#include <array>
#include <cstddef>
#include <optional>
#include <span>

#include "../core/interval.hpp"
#include "height.hpp"
#include "sounding_string.hpp"

namespace tautline {

/// Where and how deep a finger presses. Calibrated: both are a player's habit; the defaults have no source.
template <class R = double>
struct basic_finger_press {
    using real = R;
    /// From the fret's crest back to the finger; never more than three quarters of the way to the fret before, as there the
    /// finger would stand on that fret.
    field<length<R>> behind{length<R>::from_value(number<R>(10e-3L))};
    field<length<R>> depth{length<R>::from_value(number<R>(0.1e-3L))}; ///< below the crest, at the finger

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

/// What frets are for: how many equal steps an octave has, and which of them each fret is to sound.
struct meant_steps {
    int per_octave = 12;          ///< equal steps, at least 1
    std::span<const int> frets{}; ///< the step of each fret, fret 1 first; none: fret n is for step n

    /// @{
    /// Every fret is for the step of its number.
    constexpr meant_steps() = default;
    constexpr meant_steps(int steps_per_octave) : per_octave(steps_per_octave) {}
    /// @}
    /// Each fret is for a step of its own.
    constexpr meant_steps(int steps_per_octave, std::span<const int> of_frets)
        : per_octave(steps_per_octave), frets(of_frets) {}

    /// How many octaves over the open string a fret (from 1) is to sound.
    [[nodiscard]] constexpr double octaves(std::size_t fret) const {
        return (frets.empty() ? static_cast<double>(fret) : static_cast<double>(frets[fret - 1])) / per_octave;
    }
};

/// One pressed note.
template <class R = double>
struct basic_pressed_note {
    using real = R;
    frequency<R> pitch{}; ///< as it sounds
    interval<R> error{};  ///< against the step the fret is for; positive: sharp
    force<R> tension{};   ///< while pressed
    length<R> stretch{};  ///< of the string by pressing
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

/// Length in space of a run of a string that goes `dx` along and `dz` up, `plan` times dx in plan.
template <class R>
[[nodiscard, gnu::always_inline]] inline length<R> run_length(const length<R>& dx, const length<R>& dz, const R& plan) {
    const R along = dx.value() * plan;
    return length<R>::from_value(root_or_zero<R>(along * along + dz.value() * dz.value()));
}

/// Plan length of a string for each unit along x: strings spread.
template <class R>
[[nodiscard]] R plan_factor(const basic_string_line<R>& s) {
    const R spread = ratio(s.saddle_y - s.nut_y, s.saddle_x - s.nut_x);
    return sqrt(R(number<R>(1) + spread * spread));
}

/// The open string in its geometry: what all pressed notes of it start from.
template <class R>
struct basic_open_string {
    R plan{};                          ///< plan length for each unit along x
    length<R> speaking{};              ///< from nut to saddle
    force<R> tension{};                ///< at which it sounds its pitch
    R strain{};                        ///< under it
    curvature<R> strain_per_stretch{}; ///< more strain for each length that the speaking length is stretched
    R stretched{};                     ///< its length for each unit of slack length
    bu::quantity<unit::length_per_mass, R> slack_length_per_mass{}; ///< of the string before it was stretched
    R per_hertz{};                                                  ///< 1 / its pitch
    held_ends<R> fretted{};                                         ///< how it is held when pressed
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

/// Length of the string lying taut from the finger back to the nut over the first `count` crests: the upper convex hull,
/// taken edge by edge along the highest line of sight, lane by lane.
template <class S, class R>
[[nodiscard]] length<S> taut_length(const basic_string_line<S>& s, std::span<const length<R>> crest_x,
                                    std::span<const length<R>> crest_z, std::size_t count, length<S> x, length<S> z,
                                    const S& plan) {
    length<S> total{};
    const S one = number<S>(1);
    for (std::size_t edge = 0; edge <= count; ++edge) {
        const auto under_way = is_less<unit::length, S>(s.nut_x, x);
        if (!in_any_lane(under_way)) { break; } // every lane has reached the nut: nothing more to add
        length<S> next_x = s.nut_x, next_z = s.nut_z;
        S highest = select(under_way, S((s.nut_z - z).value()), one) / select(under_way, S((x - s.nut_x).value()), one);
        for (std::size_t i = 0; i < count; ++i) {
            const length<S> cx = over<S>(crest_x[i]), cz = over<S>(crest_z[i]);
            const auto ahead = is_less(cx, x);
            const S sight = (cz - z).value() / select(ahead, S((x - cx).value()), one);
            const auto taken = highest < select(ahead, sight, highest);
            highest = select(taken, sight, highest);
            next_x = select(taken, cx, next_x);
            next_z = select(taken, cz, next_z);
        }
        total += select(under_way, run_length<S>(x - next_x, z - next_z, plan), length<S>{});
        x = select(under_way, next_x, x);
        z = select(under_way, next_z, z);
    }
    return total;
}

/// The upper hull of the nut and the crests so far, built crest by crest: what a taut string behind a finger can touch.
/// Every lane of a pack must have the same hull; where they have not (or it has more corners than it keeps) it says so, and
/// `taut_length` does the work.
template <class R>
class taut_hull {
public:
    explicit taut_hull(const basic_string_line<R>& s) { corners_[count_++] = {s.nut_x, s.nut_z}; }
    void add(const length<R>& x, const length<R>& z) {
        corner c{x, z};
        count_ = seen_from(c);
        shared_ = shared_ && count_ < corners_.size();
        if (shared_) { corners_[count_++] = c; }
    }
    /// Length from a finger beyond the last crest to the nut, `plan` times each run along x; nothing where lanes differ.
    template <class S>
    [[nodiscard]] std::optional<length<S>> length_from(const length<R>& x, const length<R>& z, const S& plan) {
        const corner finger{x, z};
        const std::size_t first = seen_from(finger);
        if (!shared_) { return std::nullopt; }
        length<S> total{};
        for (std::size_t i = first; i > 0; --i) {
            const corner &a = i == first ? finger : corners_[i], &b = corners_[i - 1];
            total += run_length<S>(over<S>(a.x - b.x), over<S>(a.z - b.z), plan);
        }
        return total;
    }

private:
    struct corner {
        length<R> x{}, z{};
    };
    /// How many corners remain when those are left out that a string from `c` passes over.
    [[nodiscard]] std::size_t seen_from(const corner& c) {
        std::size_t n = count_;
        for (; n > 1; --n) {
            const corner &top = corners_[n - 1], &before = corners_[n - 2];
            const auto plain = [](const length<R>& q) { return value_of(q.value()); };
            const auto x = plain(before.x), z = plain(before.z);
            const auto passed = (plain(top.z) - z) * (plain(c.x) - x) <= (plain(c.z) - z) * (plain(top.x) - x);
            if (!in_any_lane(passed)) { break; }
            if (!in_all_lanes(passed)) {
                shared_ = false;
                break;
            }
        }
        return n;
    }
    std::array<corner, 24> corners_;
    std::size_t count_ = 0;
    bool shared_ = true;
};

/// Where the finger presses: behind fret `fret` (from 1), below its crest.
template <class S>
struct finger_place {
    length<S> x{}, z{};
    length<S> behind{}; ///< the crest
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

/// The note at fret `fret` (from 1) whose string is `taut` long from the finger to the nut. The crests may be of a plainer
/// number type than the string, so that a search can vary the string over crests that stay where they are.
template <class S, class R>
[[nodiscard]] basic_pressed_note<S> pressed_note(const basic_sounding_string<S>& string, const basic_string_line<S>& line,
                                                 const basic_open_string<S>& open, const basic_finger_press<S>& finger,
                                                 const length<S>& behind, const length<S>& taut, const length<R>& crest_x,
                                                 const length<R>& crest_z, std::size_t fret, const meant_steps& meant) {
    const length<S> speaking = run_length<S>(line.saddle_x - over<S>(crest_x), line.saddle_z - over<S>(crest_z), open.plan);
    const length<S> stretch = speaking + run_length<S>(behind, finger.depth, open.plan) + taut - open.speaking;
    const S more = stretch * open.strain_per_stretch;
    basic_pressed_note<S> note;
    note.stretch = stretch;
    note.speaking = speaking;
    note.tension = open.tension + more * string.axial_stiffness;
    note.pitch = lowest_partial<S>(open.slack_length_per_mass * S(open.stretched + more), speaking, note.tension,
                                   string.bending_stiffness, open.fretted);
    const S octaves = number<S>(meant.octaves(fret));
    note.error = interval<S>::from_cents(number<S>(1200) * (log2(S(note.pitch.value() * open.per_hertz)) - octaves));
    return note;
}
template <class S, class R>
[[nodiscard]] basic_pressed_note<S> pressed_note(const basic_sounding_string<S>& string, const basic_string_line<S>& line,
                                                 const basic_open_string<S>& open, const basic_finger_press<S>& finger,
                                                 std::span<const length<R>> crest_x, std::span<const length<R>> crest_z,
                                                 std::size_t fret, const meant_steps& meant) {
    const auto place = finger_at<S, R>(line, finger, crest_x, crest_z, fret);
    return pressed_note<S, R>(string, line, open, finger, place.behind,
                              taut_length<S, R>(line, crest_x, crest_z, fret - 1, place.x, place.z, open.plan),
                              crest_x[fret - 1], crest_z[fret - 1], fret, meant);
}

/// The notes at all frets. The hull grows with the frets, so that all notes together take as many steps as there are frets.
template <class R>
void intonation(const basic_sounding_string<R>& string, const basic_string_line<R>& line,
                const basic_finger_press<R>& finger, std::span<const length<R>> crest_x, std::span<const length<R>> crest_z,
                std::span<basic_pressed_note<R>> notes, const meant_steps& meant) {
    const auto open = kernel::open_string(string, line);
    taut_hull<R> hull(line);
    for (std::size_t i = 0; i < crest_x.size(); ++i) {
        const auto place = finger_at<R, R>(line, finger, crest_x, crest_z, i + 1);
        auto taut = hull.template length_from<R>(place.x, place.z, open.plan);
        if (!taut) { taut = taut_length<R, R>(line, crest_x, crest_z, i, place.x, place.z, open.plan); }
        notes[i] =
            pressed_note<R, R>(string, line, open, finger, place.behind, *taut, crest_x[i], crest_z[i], i + 1, meant);
        hull.add(crest_x[i], crest_z[i]);
    }
}

} // namespace kernel

/// Checks a string, its line, the finger and the crests for `pressed_note` and everything built on it.
template <class R>
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

/// What a string sounds pressed at one fret.
/// @param crest_x,crest_z crests under this string, fret 1 first, under load, wherever they really are
/// @param fret from 1
/// @param meant which equal step each fret is for; a number alone: so many to the octave, fret n for step n
template <class R>
[[nodiscard]] basic_pressed_note<R>
pressed_at(const basic_sounding_string<R>& string, const basic_string_line<R>& line, const basic_finger_press<R>& finger,
           std::type_identity_t<std::span<const length<R>>> crest_x,
           std::type_identity_t<std::span<const length<R>>> crest_z, std::size_t fret, const meant_steps& meant = {}) {
    require_fretted(string, line, finger, crest_x, crest_z, meant);
    require_that(fret >= 1 && fret <= crest_x.size(), "fret", "must be the number of a fret");
    return kernel::pressed_note<R, R>(string, line, kernel::open_string(string, line), finger, crest_x, crest_z, fret,
                                      meant);
}

/// What a string sounds at every fret, written into `notes`, fret 1 first.
template <class R>
void intonation(const basic_sounding_string<R>& string, const basic_string_line<R>& line,
                const basic_finger_press<R>& finger, std::type_identity_t<std::span<const length<R>>> crest_x,
                std::type_identity_t<std::span<const length<R>>> crest_z,
                std::type_identity_t<std::span<basic_pressed_note<R>>> notes, const meant_steps& meant = {}) {
    require_fretted(string, line, finger, crest_x, crest_z, meant);
    require_that(notes.size() == crest_x.size(), "notes", "must have one entry for each fret");
    kernel::intonation<R>(string, line, finger, crest_x, crest_z, notes, meant);
}

} // namespace tautline
