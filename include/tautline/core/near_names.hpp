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

/// How many letters must be changed, added or taken away to turn one word into the other (Levenshtein 1966, from
/// memory).
[[nodiscard]] inline std::size_t letters_apart(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) { row[j] = j; }
    for (std::size_t i = 1; i <= a.size(); ++i) {
        std::size_t corner = row[0];
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t changed = corner + (a[i - 1] == b[j - 1] ? 0 : 1);
            corner = row[j];
            row[j] = std::min({changed, row[j] + 1, row[j - 1] + 1});
        }
    }
    return row[b.size()];
}

/// The known word nearest to an unknown one; empty when none is near.
[[nodiscard]] inline std::string_view nearest(std::string_view word, std::span<const std::string_view> known) {
    std::string_view best;
    std::size_t distance = std::max<std::size_t>(2, word.size() / 2) + 1;
    for (const std::string_view k : known) {
        // A word longer than a line is no slip of the pen; comparing it would only cost time.
        if (word.size() > 80) { break; }
        if (const std::size_t d = letters_apart(word, k); d < distance) {
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
