#pragma once
/// @file
/// Tunings: the notes of the open strings, from text.

#include <optional>
#include <vector>

#include "../core/when_used.hpp"
#include "pitch.hpp"

namespace tautline {

/// The notes of the open strings, bass side first as they lie on the board. A re-entrant tuning keeps that order.
struct tuning {
    std::vector<note> notes{}; ///< bass first

    /// Whether both have the same notes in the same order.
    friend bool operator==(const tuning&, const tuning&) = default;
};

namespace tuning_text {

/// Calls `f` with each word between spaces and commas.
template <class F>
void for_each_word(std::string_view text, F&& f) {
    constexpr std::string_view between_words = " ,\t\n";
    for (;;) {
        const auto start = text.find_first_not_of(between_words);
        if (start == std::string_view::npos) { return; }
        text.remove_prefix(start);
        const auto word = text.substr(0, text.find_first_of(between_words));
        text.remove_prefix(word.size());
        f(word);
    }
}

} // namespace tuning_text

/// A tuning from the names of its notes with spaces or commas between: "E2 A2 D3 G3 B3 E4". At least one string. Throws
/// `invalid_input` with every name that is wrong.
template <class When = when_used>
[[nodiscard]] tuning parse_tuning(std::string_view text) {
    when_used_t<tuning, When> t;
    when_used_t<std::vector<problem>, When> found;
    tuning_text::for_each_word(text, [&](std::string_view word) {
        try {
            t.notes.push_back(parse_note(word));
        } catch (const invalid_input& wrong) {
            for (const problem& p : wrong.problems()) { found.push_back(p); }
        }
    });
    if (!found.empty()) { throw invalid_input(std::move(found)); }
    require_that(!t.notes.empty(), "tuning", "must have at least one note, as in \"E2 A2 D3 G3 B3 E4\"");
    return t;
}

/// The names of a tuning's notes with spaces between.
[[nodiscard]] inline std::string name_of(const tuning& t, accidental written = accidental::sharp) {
    std::string text;
    for (const note n : t.notes) { messages::append(text, {text.empty() ? "" : " ", name_of(n, written)}); }
    return text;
}

/// Every string `steps` higher (lower when negative).
[[nodiscard]] inline tuning transposed(tuning t, int steps) {
    for (note& n : t.notes) { n = transposed(n, steps); }
    return t;
}

/// The pitch of each string, in the order of the tuning. The default is equal temperament with A4 = 440 Hz.
/// Throws `invalid_input` as `pitch_of` does.
template <class R = double>
[[nodiscard]] std::vector<frequency<R>> pitches_of(const tuning& t, const basic_pitch_standard<R>& standard = {}) {
    require_valid(standard, "standard");
    std::vector<frequency<R>> f;
    for (const note n : t.notes) {
        kernel::require_near_a4(n, standard.a4_number, standard.steps);
        f.push_back(kernel::pitch_of(n, standard));
    }
    return f;
}

// Courses ----------------------------------------------------------------------------------------------------------

/// The courses of an instrument, bass side first; each is the tuning of the strings that are played together.
struct course_tuning {
    std::vector<tuning> courses{}; ///< bass first, the strings of each course together

    /// Whether both have the same notes in the same order.
    friend bool operator==(const course_tuning&, const course_tuning&) = default;
};

/// Courses from text. A slash joins the strings of a course: "G3/G2 D4/D3 A4/A4 E5/E5". A course may have one string.
/// Throws `invalid_input` with every name that is wrong.
template <class When = when_used>
[[nodiscard]] course_tuning parse_courses(std::string_view text) {
    when_used_t<course_tuning, When> t;
    when_used_t<std::vector<problem>, When> found;
    const auto course = [&](std::string_view word) {
        std::string notes(word);
        bool empty_place = word.front() == '/' || word.back() == '/';
        for (char& c : notes) { c = c == '/' ? ' ' : c; }
        if (empty_place || word.find("//") != std::string_view::npos) {
            found.push_back({"course", messages::joined({"\"", word.substr(0, 40), "\""}),
                             "must have a note on both sides of a slash"});
            return;
        }
        try {
            t.courses.push_back(parse_tuning<When>(notes));
        } catch (const invalid_input& wrong) {
            for (const problem& p : wrong.problems()) { found.push_back(p); }
        }
    };
    tuning_text::for_each_word(text, course);
    if (!found.empty()) { throw invalid_input(std::move(found)); }
    require_that(!t.courses.empty(), "courses", "must have at least one, as in \"G3/G3 D4/D4 A4/A4 E5/E5\"");
    return t;
}

/// Every string of a course tuning in order.
template <class When = when_used>
[[nodiscard]] tuning strings_of(const course_tuning& t) {
    when_used_t<tuning, When> all_strings;
    for (const tuning& c : t.courses) {
        for (const note n : c.notes) { all_strings.notes.push_back(n); }
    }
    return all_strings;
}

/// Double courses from a tuning. In the first `octave_courses` (bass side) the second string sounds an octave higher,
/// in the rest both sound in unison. `octave_courses` is 0 to the number of courses, else `invalid_input`.
template <class When = when_used>
[[nodiscard]] course_tuning doubled(const when_used_t<tuning, When>& t, int octave_courses = 0) {
    require_that(octave_courses >= 0 && static_cast<std::size_t>(octave_courses) <= t.notes.size(), "octave courses",
                 "must be 0 to the number of courses");
    when_used_t<course_tuning, When> courses;
    for (std::size_t i = 0; i < t.notes.size(); ++i) {
        const int up = i < static_cast<std::size_t>(octave_courses) ? 12 : 0;
        courses.courses.push_back({{t.notes[i], transposed(t.notes[i], up)}});
    }
    return courses;
}

/// Whether the tuning is re-entrant: the strings do not rise one after the other from bass to treble side, as on a
/// soprano ukulele.
[[nodiscard]] inline bool is_re_entrant(const tuning& t) {
    for (std::size_t i = 1; i < t.notes.size(); ++i) {
        if (t.notes[i] < t.notes[i - 1]) { return true; }
    }
    return false;
}

/// Whether a tuning is written from the treble side: it has three strings or more, and each sounds lower than the one
/// before. No instrument is tuned so from its bass side. Give the lowest string of each course.
[[nodiscard]] inline bool is_treble_first(const tuning& t) {
    for (std::size_t i = 1; i < t.notes.size(); ++i) {
        if (!(t.notes[i] < t.notes[i - 1])) { return false; }
    }
    return t.notes.size() >= 3;
}

} // namespace tautline
