#pragma once
/// @file
/// What a string sounds when it is pressed at each fret, and how far that is off.

#include <cstddef>
#include <span>

#include "notes_at_all_frets.hpp"

namespace tautline {

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
    require_that(meant.per_octave >= 1, "steps_per_octave", "must be at least 1", meant.per_octave);
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
    kernel::require_fret_number("fret", fret, 1, crest_x.size());
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
