#pragma once
/// @file
/// The known name that an unknown one probably means.

#include <algorithm>
#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace tautline {

/// The word in small letters: A to Z alone are changed.
[[nodiscard]] inline std::string small_letters(std::string_view word) {
    std::string lower(word);
    for (char& c : lower) { c = 'A' <= c && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }
    return lower;
}

/// How many letters must be changed, added, taken away or exchanged with the next one to turn one word into the other
/// (Damerau 1964 and Levenshtein 1966, from memory; no letter is moved twice).
[[nodiscard]] inline std::size_t letters_apart(std::string_view a, std::string_view b) {
    std::vector<std::size_t> before, above(b.size() + 1), row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) { row[j] = j; }
    for (std::size_t i = 1; i <= a.size(); ++i) {
        before.swap(above);
        above.swap(row);
        row.resize(b.size() + 1);
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            row[j] = std::min({above[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1), above[j] + 1, row[j - 1] + 1});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
                row[j] = std::min(row[j], before[j - 2] + 1);
            }
        }
    }
    return row[b.size()];
}

/// The most letters that a known word may be apart from a word that is taken for it.
[[nodiscard]] constexpr std::size_t most_letters_apart(std::string_view word) {
    return word.size() / 2 > 2 ? word.size() / 2 : 2;
}

/// The known word nearest to an unknown one; empty when none is near. Capitals do not matter.
[[nodiscard]] inline std::string_view nearest(std::string_view word, std::span<const std::string_view> known) {
    std::string_view best;
    std::size_t distance = most_letters_apart(word) + 1;
    // A word longer than a line is no slip of the pen; comparing it would only cost time.
    if (word.size() > 80) { return best; }
    const std::string lower = small_letters(word);
    for (const std::string_view k : known) {
        if (const std::size_t d = letters_apart(lower, small_letters(k)); d < distance) {
            distance = d;
            best = k;
        }
    }
    return best;
}
/// The known name nearest to a word, or `other` as an example when none is near.
[[nodiscard]] inline std::string nearest_or(std::string_view word, std::span<const std::string_view> known,
                                            std::string_view other) {
    const std::string_view close = nearest(word, known);
    return std::string(close.empty() ? other : close);
}

} // namespace tautline
