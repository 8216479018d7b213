#pragma once
/// @file
/// Notes by name and number, and the frequencies they stand for.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "../core/describe.hpp"
#include "../core/units.hpp"

namespace tautline {

/// A note by its number in equal steps. In twelve steps these are MIDI numbers: C4 is 60, A4 is 69, C-1 is 0.
struct note {
    int number = not_counted; ///< in equal steps

    /// Whether both have the same number.
    friend constexpr bool operator==(const note&, const note&) = default;
    /// Lower notes come first.
    friend constexpr auto operator<=>(const note&, const note&) = default;
};

/// The lowest note with a name, C-1. The highest is B10.
inline constexpr note lowest_named_note{0};
inline constexpr note highest_named_note{143}; ///< see `lowest_named_note`

/// The note `steps` higher (lower when negative), as for a capo or a transposed tuning.
[[nodiscard]] constexpr note transposed(note n, int steps) { return {n.number + steps}; }

/// A note of twelve steps, counted in twelve times `parts` steps to the octave; quarter tones have `parts` 2. `parts` 1
/// to 10 and a note within 10 000 of 0, else throws `invalid_input`.
[[nodiscard]] constexpr note in_finer_steps(note n, int parts) {
    require_that(parts >= 1 && parts <= 10, "parts", "must be 1 to 10", parts);
    require_that(n.number >= -10000 && n.number <= 10000, "note", "must be a number from -10000 to 10000", n.number);
    return {n.number * parts};
}

namespace kernel {

/// Semitones above C of a letter A to G; -1 for anything else.
[[nodiscard]] constexpr int semitones_of_letter(char letter) {
    constexpr int above_c[] = {9, 11, 0, 2, 4, 5, 7};
    return letter >= 'A' && letter <= 'G' ? above_c[letter - 'A'] : -1;
}

[[nodiscard]] constexpr bool take_prefix(std::string_view& text, std::string_view prefix) {
    if (text.substr(0, prefix.size()) != prefix) { return false; }
    text.remove_prefix(prefix.size());
    return true;
}

/// Takes accidentals off the front: any number of sharps or any number of flats, never both.
[[nodiscard]] constexpr int take_accidentals(std::string_view& text) {
    if (take_prefix(text, "\u266E")) { return 0; } // natural sign
    int sharps = 0, flats = 0;
    for (;;) {
        if (flats == 0 && (take_prefix(text, "#") || take_prefix(text, "\u266F"))) {
            sharps += 1;
        } else if (flats == 0 && (take_prefix(text, "x") || take_prefix(text, "\U0001D12A"))) {
            sharps += 2;
        } else if (sharps == 0 && (take_prefix(text, "b") || take_prefix(text, "\u266D"))) {
            flats += 1;
        } else if (sharps == 0 && take_prefix(text, "\U0001D12B")) {
            flats += 2;
        } else {
            return sharps - flats;
        }
        if (sharps + flats > 1000) { return 1000; } // out of every range already; stops an endless text
    }
}

} // namespace kernel

/// A note from scientific pitch notation: a capital A to G, any number of sharps (`#`, `x` for two, or the signs of
/// printed music) or of flats (`b`), and the octave, -1 to 10: "E2", "F#3", "Bb-1", "Cb4" (which is B3). "C-0", "C-01"
/// and "C04" are not taken, because they may have been meant for "C-1", "C0" or another note. Nothing for anything
/// else, and for what falls below C-1 or above B10.
/// Source: scientific pitch notation, octave numbers changing at C, A4 = 440 Hz.
[[nodiscard]] constexpr std::optional<note> find_note(std::string_view text) {
    const int semitones = text.empty() ? -1 : kernel::semitones_of_letter(text.front());
    if (semitones < 0) { return std::nullopt; }
    text.remove_prefix(1);
    const int accidentals = kernel::take_accidentals(text);
    const bool below = kernel::take_prefix(text, "-") || kernel::take_prefix(text, "\u2212"); // hyphen or minus sign
    if (text.empty() || text.size() > 2) { return std::nullopt; }
    int octave = 0;
    for (const char c : text) {
        if (c < '0' || c > '9') { return std::nullopt; }
        octave = octave * 10 + (c - '0');
    }
    if (below ? octave != 1 || text.size() != 1 : octave > 10 || (text.size() == 2 && octave < 10)) { return std::nullopt; }
    const note n{12 * ((below ? -1 : octave) + 1) + semitones + accidentals};
    if (n < lowest_named_note || n > highest_named_note) { return std::nullopt; }
    return n;
}

/// How a note must be written, for a message about text that is no note.
inline constexpr const char* note_spelling =
    "must be a letter A to G, then sharps (#) or flats (b) if any, then the octave "
    "-1 to 10, as in E2, F#3 or Bb1, from C-1 to B10";

/// The note that `find_note` finds. Throws `invalid_input` where it finds none.
[[nodiscard]] constexpr note parse_note(std::string_view text) {
    const auto found = find_note(text);
    if (!found) { messages::refuse("note", messages::joined({"\"", text.substr(0, 40), "\""}), note_spelling); }
    return *found;
}

/// How the black keys are written.
enum class accidental { sharp, flat };

/// Name of a note of twelve steps in scientific pitch notation, "F#3" or "Gb3". C-1 to B10, else throws `invalid_input`.
[[nodiscard]] inline std::string name_of(note n, accidental written = accidental::sharp) {
    require_that(n >= lowest_named_note && n <= highest_named_note, "note", "must be from C-1 (number 0) to B10 (143)",
                 n.number);
    constexpr const char* sharp[] = {"C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B"};
    constexpr const char* flat[] = {"C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B"};
    const int place = n.number % 12;
    return messages::joined({(written == accidental::sharp ? sharp : flat)[place], n.number / 12 - 1});
}

/// What fixes the pitch of notes: the pitch of A4, the equal steps to the octave, and a temperament.
template <class R = double>
struct basic_pitch_standard {
    using real = R;
    /// ISO 16:1975 sets 440 Hz.
    field<frequency<R>> a4 = frequency<R>::from_value(number<R>(440));
    /// Equal steps to the octave.
    int steps = 12;
    /// Number of A4 when counted in these steps.
    int a4_number = 69;
    /// A temperament: how far each step of the octave stands from its equal place. The first is for C, whose numbers
    /// are divisible by `steps`. All are shifted alike so that A4 keeps its pitch. Empty: equal temperament.
    std::vector<interval<R>> offsets{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("a4", between(200 * units::Hz, 900 * units::Hz).fair_default("ISO 16"), self.a4...);
        visit("steps", between(1, 120).fair_default("semitones"), self.steps...);
        visit("a4_number", between(0, 1500).fair_default("A4 in semitones, as MIDI counts"), self.a4_number...);
        visit("offsets", between(-600 * units::cents, 600 * units::cents), self.offsets...);
    }
    template <class Report>
    constexpr void rules(Report&& report) const {
        if (!offsets.empty() && offsets.size() != static_cast<std::size_t>(steps)) {
            report("offsets", messages::joined({"must be one for each of the ", steps,
                                                " steps of the octave, but there are ", offsets.size()}));
        }
    }
};
using pitch_standard = basic_pitch_standard<double>;

namespace kernel {

[[nodiscard]] constexpr int remainder(int n, int divisor) { return (n % divisor + divisor) % divisor; }

template <class R>
[[nodiscard]] constexpr interval<R> equal_steps(int up, int to_the_octave) {
    return interval<R>::from_cents(number<R>(1200.0L * up / to_the_octave));
}

/// Interval from A4 up to a note, temperament included.
template <class R>
[[nodiscard]] constexpr interval<R> above_a4(note n, const basic_pitch_standard<R>& standard) {
    auto equal = equal_steps<R>(n.number - standard.a4_number, standard.steps);
    if (standard.offsets.empty()) { return equal; }
    const auto offset = [&](int m) { return standard.offsets[static_cast<std::size_t>(remainder(m, standard.steps))]; };
    return equal + offset(n.number) - offset(standard.a4_number);
}

/// Refuses a note 20 octaves or more from A4.
constexpr void require_near_a4(note n, int a4_number, int steps) {
    const int reach = 20 * steps - 1;
    if (n.number < a4_number - reach || n.number > a4_number + reach) {
        messages::refuse("note", messages::count_text(n.number),
                         messages::joined({"must be less than 20 octaves from A4: a number from ", a4_number - reach,
                                           " to ", a4_number + reach}));
    }
}

template <class R>
[[nodiscard]] constexpr frequency<R> pitch_of(note n, const basic_pitch_standard<R>& standard) {
    return standard.a4 * frequency_ratio(kernel::above_a4(n, standard));
}

} // namespace kernel

/// Frequency of a note: `f = a4 * 2^((m - m_a4)/N)`, moved by the temperament. Throws `invalid_input` for a note 20
/// octaves or more from A4, and for a standard that is not valid.
/// Source: ISO 16:1975 for A4 = 440 Hz; equal temperament by definition.
template <class R = double>
[[nodiscard]] constexpr frequency<R> pitch_of(note n, const basic_pitch_standard<R>& standard) {
    constexpr_require_valid(standard, "standard");
    kernel::require_near_a4(n, standard.a4_number, standard.steps);
    return kernel::pitch_of(n, standard);
}
/// Frequency of a note in twelve equal steps with A4 = 440 Hz, the defaults of `basic_pitch_standard`. It works in
/// constant expressions, where some standard libraries do not allow that type's list.
[[nodiscard]] constexpr frequency<double> pitch_of(note n) {
    kernel::require_near_a4(n, 69, 12);
    return 440 * units::Hz * frequency_ratio(kernel::equal_steps<double>(n.number - 69, 12));
}
/// Frequency of a note by its name: `pitch_of("E2")`.
[[nodiscard]] constexpr frequency<double> pitch_of(std::string_view name) { return pitch_of(parse_note(name)); }

/// A note and how far a measured pitch stands above it.
template <class R = double>
struct nearest_note_result {
    tautline::note note{}; ///< the nearest one
    /// Positive: sharp.
    interval<R> error{};
};

/// The note nearest to a measured frequency, and how far the frequency stands above it. `f` is 1 Hz to 100 kHz, else
/// `invalid_input`. The default is equal temperament with A4 = 440 Hz.
template <class R = double>
[[nodiscard]] nearest_note_result<R> nearest_note(const frequency<R>& f, const basic_pitch_standard<R>& standard = {}) {
    require("frequency", f, between(1 * units::Hz, 100 * units::kHz));
    require_valid(standard, "standard");
    const interval<R> up = interval_between<R>(standard.a4, f);
    const double steps = static_cast<double>(value_of(up.cents())) * standard.steps / 1200;
    const int guess = standard.a4_number + static_cast<int>(std::lround(steps));
    // With a temperament a neighbour of the nearest equal note may be nearer. Offsets are at most half an octave.
    const int reach = standard.offsets.empty() ? 0 : standard.steps + 1;
    nearest_note_result<R> best{{guess}, up - kernel::above_a4(note{guess}, standard)};
    for (int m = guess - reach; m <= guess + reach; ++m) {
        const interval<R> error = up - kernel::above_a4(note{m}, standard);
        if (abs(error.cents()) < abs(best.error.cents())) { best = {{m}, error}; }
    }
    return best;
}

} // namespace tautline
