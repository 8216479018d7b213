#pragma once
/// @file
/// How a setup sounds: the pitch at every fret, where the saddle would have to be, and how hard each note can be plucked.

#include "../core/leaves.hpp"
#include "../strings/tension.hpp"
#include "setup.hpp"

namespace tautline::kernel {

/// What of the sound is wanted.
enum class sound_part {
    all,    ///< notes, octave setbacks, clearances, hardest plucks
    octaves ///< octave notes, their setbacks and the straight saddle alone; all else is left as it was
};

template <class R>
[[nodiscard]] basic_sounding_string<R> sounding(const basic_instrument<R>& built, const basic_music_string<R>& string,
                                                const basic_string_setup<R>& s) {
    basic_sounding_string<R> sounds;
    sounds.mass_per_length = s.mass_per_length;
    sounds.open_pitch = s.pitch;
    sounds.axial_stiffness = kernel::axial_stiffness(string);
    sounds.bending_stiffness = kernel::core_bending_stiffness(string);
    sounds.nut_end = built.playing.nut_end;
    sounds.fret_end = built.playing.fret_end;
    sounds.saddle_end = built.playing.saddle_end;
    return sounds;
}

/// Pull of a string that pressing stretches, from its open pull as a setup tells it. A note is reckoned from the pull at
/// which the stiff string sounds its pitch, which is a little less. The stretch adds alike to both.
template <class R>
[[nodiscard]] force<R> pull_of_pressed(const basic_sounding_string<R>& string, const basic_string_setup<R>& s,
                                       const length<R>& stretch) {
    const R lengthened = ratio(stretch, s.speaking_length + string.shared_afterlength);
    return s.tension + lengthened * force<R>(string.axial_stiffness + s.tension);
}

/// Notes, setback, clearances and plucks of one string, for the frets ahead of its nut.
template <class R>
void sound_string(const basic_instrument<R>& built, const basic_sounding_string<R>& sounds, const meant_steps& meant,
                  std::size_t octave, basic_string_setup<R>& s, std::span<const length<R>> crest_x,
                  std::span<const length<R>> crest_z, std::span<basic_pressed_note<R>> notes,
                  std::span<basic_least_clearance<R>> clearances, std::span<basic_clean_pluck<R>> plucks, sound_part part) {
    const std::size_t frets = crest_x.size();
    // The finger was checked with the instrument, and that the string can sound by `sound`.
    require_crests<R>(s.line, crest_x, crest_z);
    require_valid(sounds, "string");
    if (part == sound_part::all) {
        kernel::intonation<R>(sounds, s.line, built.playing.finger, crest_x, crest_z, notes, meant);
    } else if (octave > 0) {
        notes[octave - 1] = kernel::pressed_note<R, R>(sounds, s.line, kernel::open_string(sounds, s.line),
                                                       built.playing.finger, crest_x, crest_z, octave, meant);
    }
    if (octave > 0) {
        basic_moved_ends<R> c;
        c.setback = kernel::setback_for_fret<R>(sounds, s.line, built.playing.finger, crest_x, crest_z, octave, meant,
                                                notes[octave - 1]);
        if (kernel::within_reach<R>(s.line, c, crest_x)) { s.octave_setback = c.setback; }
    }
    if (part != sound_part::all) { return; }
    for (auto& note : notes) { note.tension = pull_of_pressed<R>(sounds, s, length<R>(note.stretch)); }
    constexpr std::size_t W = notes_together<R>;
    for (std::size_t first = 0; first < frets; first += W) {
        std::array<length<R>, W> places;
        std::array<force<R>, W> tensions;
        for (std::size_t k = 0; k < W; ++k) {
            // Nobody plucks behind the pressed fret. Where the usual place lies there, the pluck is taken at the middle
            // of what sounds.
            const std::size_t n = std::min(first + k, frets);
            const length<R> stop = n == 0 ? length<R>(s.line.nut_x) : crest_x[n - 1];
            places[k] = min<unit::length, R>(built.playing.pluck_from_saddle, (s.line.saddle_x - stop) * number<R>(0.5L));
            tensions[k] = n == 0 ? s.tension : notes[n - 1].tension;
        }
        const std::size_t count = std::min(W, frets - first);
        kernel::rooms_of_notes<R>(s.line, crest_x, crest_z, first, places, tensions, clearances.subspan(first, count),
                                  plucks.subspan(first, count));
    }
}

/// The same for a string with a nut of its own. The frets up to that nut get numbers that are not given.
template <class R>
void sound_short_string(const basic_instrument<R>& built, const basic_sounding_string<R>& sounds, const meant_steps& meant,
                        std::size_t octave, std::span<const length<R>> crest_x, basic_string_setup<R>& s, sound_part part) {
    const std::size_t behind = s.frets_behind;
    const std::span<const length<R>> crest_z(s.crest_z);
    sound_string<R>(built, sounds, meant, octave, s, crest_x.subspan(behind), crest_z.subspan(behind),
                    std::span(s.notes).subspan(behind), std::span(s.clearances).subspan(behind),
                    std::span(s.plucks).subspan(behind), part);
    if (part != sound_part::all) { return; }
    const R passed = number<R>(static_cast<double>(behind));
    for (std::size_t n = behind; n < s.plucks.size(); ++n) {
        s.clearances[n].fret = s.clearances[n].fret + passed;
        s.plucks[n].fret = s.plucks[n].fret + passed;
    }
    // What was computed for the open string stands at 0.
    s.clearances[0] = s.clearances[behind];
    s.plucks[0] = s.plucks[behind];
    const length<R> no_length = length<R>::from_value(not_given<R>());
    const force<R> no_force = force<R>::from_value(not_given<R>());
    for (std::size_t n = 1; n <= behind; ++n) {
        s.clearances[n] = {no_length, not_given<R>()};
        s.plucks[n] = {no_length, no_force, not_given<R>()};
        auto& note = s.notes[n - 1];
        for_each_leaf(note, [](std::string_view, auto& x) { set_number(x, not_given<R>()); });
    }
}

/// Notes, setbacks, clearances and plucks of all strings, and the straight saddle that suits their octave frets best.
template <class R>
void sound(const basic_instrument<R>& built, const basic_stringing<R>& strung, basic_setup<R>& out,
           sound_part part = sound_part::all) {
    const std::size_t frets = out.fret_x.size();
    out.fret_steps.resize(frets);
    for (std::size_t n = 0; n < frets; ++n) {
        out.fret_steps[n] = kernel::fret_step(built.board.scale, static_cast<int>(n) + 1);
    }
    out.octave_fret = kernel::octave_fret(built.board.scale);
    const meant_steps meant(built.board.scale.steps, out.fret_steps);
    auto& own_steps = out.own_steps;
    for (std::size_t i = 0; i < out.strings.size(); ++i) {
        auto& s = out.strings[i];
        s.notes.resize(frets);
        s.clearances.resize(frets);
        s.plucks.resize(frets);
        s.octave_setback.reset();
        if (frets == 0) { continue; }
        const auto sounds = sounding(built, strung.strings[i].string, s);
        if (!in_all_lanes(kernel::can_sound<R>(sounds, s.speaking_length))) {
            require_that(false, messages::path_of("strings", i),
                         "must be thinner, longer or tuned higher: a tenth of the pull that its pitch needs would be its "
                         "stiffness, and this is a bar, not a string");
        }
        auto octave = static_cast<std::size_t>(out.octave_fret);
        if (s.frets_behind == 0) {
            sound_string<R>(built, sounds, meant, octave, s, out.crest_places(s), s.crest_z, s.notes, s.clearances,
                            s.plucks, part);
            continue;
        }
        octave = 0;
        own_steps.clear();
        const int open = out.fret_steps[s.frets_behind - 1];
        for (std::size_t n = s.frets_behind; n < frets; ++n) {
            own_steps.push_back(out.fret_steps[n] - open);
            if (own_steps.back() == built.board.scale.steps) { octave = own_steps.size(); }
        }
        sound_short_string<R>(built, sounds, {built.board.scale.steps, own_steps}, octave, out.crest_places(s), s, part);
    }
    out.straight_saddle.reset();
    out.asked_y.clear();
    out.asked_x.clear();
    for (const auto& s : out.strings) {
        if (!s.octave_setback) { continue; }
        out.asked_y.push_back(s.y_at_saddle);
        out.asked_x.push_back(s.line.saddle_x + *s.octave_setback);
    }
    if (out.asked_y.size() >= 2) { out.straight_saddle = tautline::straight_saddle<R>(out.asked_y, out.asked_x); }
}

} // namespace tautline::kernel

namespace tautline {

/// Setback and nut advance together that make a string's errors over the first octave's frets least. Returns nothing with
/// fewer than two frets, or where the best place is out of reach.
template <class R>
[[nodiscard]] std::optional<basic_moved_ends<R>> both_ends_moved(const basic_strung_instrument<R>& on,
                                                                 const basic_setup<R>& s, std::size_t string) {
    const auto& built = on.instrument;
    require_that(string < s.strings.size(), "string", "must be one of the setup's");
    const auto& one = s.strings[string];
    const auto last = std::min(s.fret_x.size() - one.frets_behind, static_cast<std::size_t>(built.board.scale.steps));
    if (last < 2) { return std::nullopt; }
    const auto sounds = kernel::sounding(built, on.stringing.strings[string].string, one);
    return ends_moved_over<R>(
        sounds, one.line, built.playing.finger, std::span<const length<R>>(s.crest_places(one)).subspan(one.frets_behind),
        std::span<const length<R>>(one.crest_z).subspan(one.frets_behind), 1, last, true, built.board.scale.steps);
}

} // namespace tautline
