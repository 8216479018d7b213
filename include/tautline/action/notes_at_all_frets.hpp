#pragma once
/// @file
/// The notes of a string at all frets, as many at a time as a number allows: rows of doubles side by side, duals by slopes.
/// Formulas and source are those of `pressed_note`.

#include <algorithm>
#include <array>
#include <cstddef>
#include <span>

#include "../core/local_slopes.hpp"
#include "../core/number_row.hpp"
#include "pressed_note.hpp"

namespace tautline::kernel {

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
        const auto farthest = number<S>(0.75L) * (x.value().value - before.value().value);
        if (!in_all_lanes(behind->value().value < farthest)) {
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

} // namespace tautline::kernel
