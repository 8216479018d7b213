#pragma once
/// @file
/// What an instrument is strung with: strings, their notes and the pitch standard.

#include <vector>

#include "../strings/music_string.hpp"
#include "../strings/pitch.hpp"

namespace tautline {

/// A string and the note it is tuned to.
template <class R = double>
struct basic_tuned_string {
    using real = R;
    basic_music_string<R> string; ///< how it is built
    note pitch{};                 ///< number of its note, in the standard's steps

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("string", self.string...);
        visit("pitch", self.pitch...);
    }
};
using tuned_string = basic_tuned_string<double>;

/// What an instrument is strung with, bass first, and the pitch standard it is tuned to.
template <class R = double>
struct basic_stringing {
    using real = R;
    std::vector<basic_tuned_string<R>> strings{}; ///< bass first
    basic_pitch_standard<R> standard{};           ///< pitch of A4 and temperament

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("strings", self.strings...);
        visit("standard", self.standard...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (strings.empty()) { report("strings", "must hold at least one string"); }
    }
};
using stringing = basic_stringing<double>;

} // namespace tautline
