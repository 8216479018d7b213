#pragma once
/// @file
/// Tunings: the notes of the open strings, from text.

#include <optional>
#include <vector>

#include "pitch.hpp"

namespace tautline {

/// The open strings of an instrument, bass side first as they lie on the board (a re-entrant tuning's order is kept).
struct tuning {
    std::vector<note> notes{};

    friend bool operator==(const tuning&, const tuning&) = default;
};

/// A tuning from the names of its notes with spaces or commas between: "E2 A2 D3 G3 B3 E4". Any number of strings from one;
/// throws `invalid_input` with every name that is wrong.
[[nodiscard]] inline tuning parse_tuning(std::string_view text) {
    constexpr std::string_view between_notes = " ,\t\n";
    tuning t;
    std::vector<problem> found;
    for (;;) {
        const auto start = text.find_first_not_of(between_notes);
        if (start == std::string_view::npos) { break; }
        text.remove_prefix(start);
        const auto word = text.substr(0, text.find_first_of(between_notes));
        text.remove_prefix(word.size());
        try {
            t.notes.push_back(parse_note(word));
        } catch (const invalid_input& wrong) {
            found.insert(found.end(), wrong.problems().begin(), wrong.problems().end());
        }
    }
    if (!found.empty()) { throw invalid_input(std::move(found)); }
    require_that(!t.notes.empty(), "tuning", "must have at least one note, as in \"E2 A2 D3 G3 B3 E4\"");
    return t;
}

/// The names of a tuning's notes with spaces between.
[[nodiscard]] inline std::string name_of(const tuning& t, accidental written = accidental::sharp) {
    std::string text;
    for (const note n : t.notes) { text += (text.empty() ? "" : " ") + name_of(n, written); }
    return text;
}

/// Every string `steps` higher (lower when negative).
[[nodiscard]] inline tuning transposed(tuning t, int steps) {
    for (note& n : t.notes) { n = transposed(n, steps); }
    return t;
}

/// The pitch of each string.
template <class R>
[[nodiscard]] std::vector<frequency<R>> pitches_of(const tuning& t, const basic_pitch_standard<R>& standard) {
    std::vector<frequency<R>> f;
    for (const note n : t.notes) { f.push_back(pitch_of(n, standard)); }
    return f;
}
[[nodiscard]] inline std::vector<frequency<double>> pitches_of(const tuning& t) { return pitches_of(t, pitch_standard{}); }

} // namespace tautline
