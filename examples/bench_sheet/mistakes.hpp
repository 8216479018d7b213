#pragma once
/// @file
/// What is wrong with a job file: line, key and what was expected, gathered until all of the file has been read.

#include <algorithm>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace bench_sheet {

/// One mistake in a job file.
struct mistake {
    std::uint32_t line = 0; ///< 1 is the first; 0 where the file as a whole is meant
    std::string text;
};

/// How many bytes of UTF-8 at the start of a text make a character that acts instead of being seen: the control characters,
/// and those that turn the direction of writing. 0 where there is none.
inline std::size_t acting_bytes(std::string_view text) {
    const auto byte = [&](std::size_t i) { return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U; };
    if (byte(0) < 0x20 || byte(0) == 0x7f) { return 1; }
    if (byte(0) == 0xc2 && byte(1) >= 0x80 && byte(1) <= 0x9f) { return 2; }
    const bool turns = byte(0) == 0xe2 && ((byte(1) == 0x80 && ((byte(2) >= 0xaa && byte(2) <= 0xae) || byte(2) == 0x8e ||
                                                                byte(2) == 0x8f || byte(2) == 0xa8 || byte(2) == 0xa9)) ||
                                           (byte(1) == 0x81 && byte(2) >= 0xa6 && byte(2) <= 0xa9));
    return turns ? 3 : 0;
}

/// Text from a file as a terminal may show it: characters that act are written out, so that none does.
inline std::string shown(std::string_view text) {
    std::string out;
    while (!text.empty()) {
        const std::size_t acting = acting_bytes(text);
        for (std::size_t i = 0; i < acting; ++i) {
            constexpr std::string_view digits = "0123456789abcdef";
            const auto u = static_cast<unsigned char>(text[i]);
            out += "\\x";
            out += digits[u >> 4];
            out += digits[u & 15];
        }
        if (acting == 0) { out += text.front(); }
        text.remove_prefix(std::max<std::size_t>(acting, 1));
    }
    return out;
}

/// How many letters must change, come or go to make one word of the other (Levenshtein 1966, from memory).
inline std::size_t letters_apart(std::string_view a, std::string_view b) {
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

/// The known word closest to one that is not known; empty when none is near.
inline std::string_view nearest(std::string_view word, std::span<const std::string_view> known) {
    std::string_view best;
    std::size_t distance = std::max<std::size_t>(2, word.size() / 2) + 1;
    for (const std::string_view k : known) {
        // Words longer than a line are nobody's slip of the pen; comparing them would only cost time.
        if (word.size() > 80) { break; }
        if (const std::size_t d = letters_apart(word, k); d < distance) {
            distance = d;
            best = k;
        }
    }
    return best;
}

} // namespace bench_sheet
