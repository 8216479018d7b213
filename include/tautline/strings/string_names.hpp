#pragma once
/// @file
/// Names of strings: numbers from the treble side, as the trade counts, each with its note.
///
/// Lists run bass first from `strings[0]`; people count from the treble side. A number tells where a string lies across
/// the board, not how high it sounds: the short string of a banjo lies on the bass side and is the fifth. Courses are
/// counted in place of strings. The strings of a course have letters from the bass side: 4a, 4b.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "pitch.hpp"

namespace tautline {

namespace kernel {

/// Where a string lies among the courses.
struct string_place {
    int number = 0; ///< of string or course, from the treble; 0: there is none
    int within = 0; ///< place among the strings of its course, from 0 at the bass side
    int of = 0;     ///< strings in the course
};

} // namespace kernel

/// The names of an instrument's strings.
struct string_names {
    std::vector<int> courses{}; ///< strings in each course, bass first; single strings are ones
    std::vector<note> notes{};  ///< of each string, bass first; empty where the notes have no names

    /// How many strings there are.
    [[nodiscard]] std::size_t size() const {
        std::size_t count = 0;
        for (const int c : courses) { count += static_cast<std::size_t>(c); }
        return count;
    }
    /// Whether any course has more than one string.
    [[nodiscard]] bool in_courses() const {
        for (const int c : courses) {
            if (c > 1) { return true; }
        }
        return false;
    }
    /// Number of a string: "6", or "4a" in a course of two or more. `i` counts from 0, bass first. Empty where there is
    /// no such string.
    [[nodiscard]] std::string number(std::size_t i) const {
        const kernel::string_place at = place_of(i);
        if (at.number == 0) { return {}; }
        const char letter[] = {static_cast<char>('a' + at.within), '\0'};
        return messages::joined({at.number, at.of > 1 ? letter : ""});
    }
    /// Note of a string: "E2". Empty where the note has no name.
    [[nodiscard]] std::string note_of(std::size_t i) const {
        if (i >= notes.size() || notes[i] < lowest_named_note || highest_named_note < notes[i]) { return {}; }
        return name_of(notes[i]);
    }
    /// Number and note for a table: "6 E2", "4a G2".
    [[nodiscard]] std::string label(std::size_t i) const {
        const std::string n = note_of(i);
        return messages::joined({number(i), n.empty() ? "" : " ", n});
    }
    /// The string, or the whole course that it lies in, with the string's own note: "string 6 (E2)", "course 4 (G2)".
    /// Where there is no such string it is the place in the list: "strings[7]".
    [[nodiscard]] std::string course_name(std::size_t i) const {
        const kernel::string_place at = place_of(i);
        if (at.number == 0) { return messages::path_of("strings", i); }
        std::string text = messages::joined({in_courses() ? "course " : "string ", at.number});
        if (const std::string n = note_of(i); !n.empty()) { messages::append(text, {" (", n, ")"}); }
        return text;
    }
    /// The string itself, as it is called at the end of a sentence or before a colon: "string 6 (E2)", "course 4 (G2),
    /// its bass-side string".
    [[nodiscard]] std::string name(std::size_t i) const {
        const kernel::string_place at = place_of(i);
        std::string text = course_name(i);
        if (at.of < 2) { return text; }
        if (at.within == 0) { return text + ", its bass-side string"; }
        if (at.within + 1 == at.of) { return text + ", its treble-side string"; }
        if (at.of == 3) { return text + ", its middle string"; }
        return messages::joined({text, ", its string ", number(i).substr(number(i).size() - 1)});
    }
    /// The same where a sentence begins.
    [[nodiscard]] std::string name_at_start(std::size_t i) const {
        std::string text = name(i);
        text.front() = text.front() == 's' ? 'S' : 'C';
        return text;
    }
    /// All names in short, for a message about an unknown name: "strings 1 (E4) to 6 (E2)".
    [[nodiscard]] std::string range() const {
        if (courses.empty()) { return "no strings"; }
        const auto with_note = [&](std::size_t i) {
            const std::string n = note_of(i), of = number(i).substr(0, number(i).find_first_not_of("0123456789"));
            return messages::joined({of, n.empty() ? "" : " (", n, n.empty() ? "" : ")"});
        };
        const std::string what = in_courses() ? "course" : "string", first = with_note(size() - 1);
        if (courses.size() == 1 && !in_courses()) { return messages::joined({what, " ", first}); }
        std::string text = courses.size() == 1 ? messages::joined({what, " ", first})
                                               : messages::joined({what, "s ", first, " to ", with_note(0)});
        for (std::size_t i = 0; i < size(); ++i) {
            // The first course of several strings shows how its strings are told apart.
            if (place_of(i).of < 2) { continue; }
            messages::append(text, {"; ", number(i), " is ", name(i)});
            break;
        }
        return text;
    }
    /// The place in the list, from 0, of the string with a number as `number` writes it. Blanks and capitals do not
    /// matter. Nothing where there is no such string, and for a course of several strings without a letter.
    [[nodiscard]] std::optional<std::size_t> place_of(std::string_view wanted) const {
        while (wanted.starts_with(' ')) { wanted.remove_prefix(1); }
        while (wanted.ends_with(' ')) { wanted.remove_suffix(1); }
        std::string plain(wanted);
        for (char& c : plain) {
            if (c >= 'A' && c <= 'Z') { c = static_cast<char>(c - 'A' + 'a'); }
        }
        for (std::size_t i = 0; i < size(); ++i) {
            if (!plain.empty() && plain == number(i)) { return i; }
        }
        return std::nullopt;
    }

    /// Whether both have the same courses and the same notes.
    friend bool operator==(const string_names&, const string_names&) = default;

private:
    [[nodiscard]] kernel::string_place place_of(std::size_t i) const {
        std::size_t before = 0;
        for (std::size_t c = 0; c < courses.size(); ++c) {
            const auto here = static_cast<std::size_t>(courses[c]);
            if (i < before + here) {
                return {static_cast<int>(courses.size() - c), static_cast<int>(i - before), courses[c]};
            }
            before += here;
        }
        return {};
    }
};

} // namespace tautline
