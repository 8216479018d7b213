#pragma once
/// @file
/// Names from a database or a command line as a terminal may show them.

#include <string>
#include <string_view>

namespace shop {

/// Control characters written out, so that none acts: those of ASCII, and those that UTF-8 writes as C2 80 to C2 9F.
inline std::string shown(std::string_view text) {
    constexpr std::string_view digits = "0123456789abcdef";
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto c = static_cast<unsigned char>(text[i]);
        const auto after = i + 1 < text.size() ? static_cast<unsigned char>(text[i + 1]) : 0U;
        const bool second = i > 0 && static_cast<unsigned char>(text[i - 1]) == 0xc2 && c < 0xa0 && c >= 0x80;
        if (c < 0x20 || c == 0x7f || second || (c == 0xc2 && after >= 0x80 && after < 0xa0)) {
            out += "\\x";
            out += digits[c >> 4];
            out += digits[c & 15];
        } else {
            out += text[i];
        }
    }
    return out;
}

} // namespace shop
