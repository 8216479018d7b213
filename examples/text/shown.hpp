#pragma once
/// @file
/// How titles and names from outside are shown on the terminal, in JSON, CSV and drawings.

#include "utf8.hpp"

namespace safe_text {

/// Whether a character acts or hides instead of being seen: controls, marks and overrides of direction, separators,
/// characters of no width, fillers, and code points that no character has or that mean what two parties agreed on (Unicode
/// 15, chapter 23).
constexpr bool acts_or_hides(std::uint32_t c) {
    const bool control = c < 0x20 || (c >= 0x7f && c < 0xa0);
    const bool direction =
        c == 0x61c || c == 0x200e || c == 0x200f || (c >= 0x202a && c <= 0x202e) || (c >= 0x2066 && c <= 0x2069);
    const bool no_width = c == 0xad || c == 0x180e || (c >= 0x200b && c <= 0x200d) || (c >= 0x2060 && c <= 0x206f) ||
                          c == 0xfeff || (c >= 0xfff0 && c <= 0xfffb) || (c >= 0xe0000 && c <= 0xe0fff);
    const bool separator = c == 0x2028 || c == 0x2029;
    const bool filler = c == 0x115f || c == 0x1160 || c == 0x3164 || c == 0xffa0;
    const bool no_character =
        (c & 0xfffeU) == 0xfffe || (c >= 0xfdd0 && c <= 0xfdef) || (c >= 0xe000 && c <= 0xf8ff) || c >= 0xf0000;
    return control || direction || no_width || separator || filler || no_character;
}

/// A text in which every character is visible. Characters that act or hide, and bytes that are not UTF-8, become escapes
/// ("\x1b", "\xe2\x80\xae").
inline std::string shown(std::string_view text) {
    constexpr std::string_view digits = "0123456789abcdef";
    std::string out;
    while (!text.empty()) {
        const utf8_start first = first_code_point(text);
        const std::size_t bytes = first.bytes > 0 ? first.bytes : 1;
        if (first.bytes > 0 && !acts_or_hides(first.code)) {
            out += text.substr(0, bytes);
        } else {
            for (const char c : text.substr(0, bytes)) {
                const auto u = static_cast<unsigned char>(c);
                out += "\\x";
                out += digits[u >> 4U];
                out += digits[u & 15U];
            }
        }
        text.remove_prefix(bytes);
    }
    return out;
}

} // namespace safe_text
