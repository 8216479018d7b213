#include "text.hpp"

#include <cstdint>

namespace drawing {

namespace {

constexpr std::string_view replacement = "\xEF\xBF\xBD"; // U+FFFD
constexpr std::string_view ellipsis = "\xE2\x80\xA6";    // U+2026

constexpr bool continues(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

struct character {
    std::uint32_t code = 0;
    std::size_t bytes = 1;
    bool valid = false;
};

/// The character at the front of a text that is not empty; of what is not UTF-8, one byte (RFC 3629: no overlong forms, no
/// surrogates, nothing past U+10FFFF).
character front_of(std::string_view text) {
    const auto lead = static_cast<unsigned char>(text[0]);
    if (lead < 0x80) { return {lead, 1, true}; }
    const std::size_t bytes = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
    if (lead < 0xC2 || lead > 0xF4 || text.size() < bytes) { return {}; }
    std::uint32_t code = lead & (0xFFU >> (bytes + 1));
    for (std::size_t i = 1; i < bytes; ++i) {
        if (!continues(text[i])) { return {}; }
        code = code << 6U | (static_cast<unsigned char>(text[i]) & 0x3FU);
    }
    constexpr std::uint32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
    if (code < least[bytes] || code > 0x10FFFF || (code >= 0xD800 && code <= 0xDFFF)) { return {}; }
    return {code, bytes, true};
}

/// Characters that act or hide: controls, marks and overrides of direction, separators, fillers, private and no characters.
constexpr bool shows(std::uint32_t c) {
    const bool control = c < 0x20 || (c >= 0x7F && c < 0xA0) || c == 0xAD;
    const bool hidden = (c >= 0x200B && c <= 0x200F) || (c >= 0x2028 && c <= 0x202E) || (c >= 0x2060 && c <= 0x206F) ||
                        c == 0x61C || c == 0xFEFF || (c >= 0xFFF0 && c <= 0xFFFB) || (c >= 0xE0000 && c <= 0xE0FFF);
    const bool unassigned =
        (c & 0xFFFEU) == 0xFFFE || (c >= 0xFDD0 && c <= 0xFDEF) || (c >= 0xE000 && c <= 0xF8FF) || c >= 0xF0000;
    return !control && !hidden && !unassigned;
}

} // namespace

std::string printable(std::string_view text, std::size_t most) {
    std::string out;
    for (std::size_t count = 0; !text.empty(); ++count) {
        if (count == most) {
            out = first_characters(out, most > 0 ? most - 1 : 0);
            return out.append(ellipsis);
        }
        const character c = front_of(text);
        if (c.code == '\t' || c.code == '\n' || c.code == '\r') {
            out += ' ';
        } else if (c.valid && shows(c.code)) {
            out += text.substr(0, c.bytes);
        } else {
            out += replacement;
        }
        text.remove_prefix(c.bytes);
    }
    return out;
}

std::string first_characters(std::string_view text, std::size_t count) {
    std::size_t end = 0;
    for (; end < text.size(); ++end) {
        if (!continues(text[end]) && count-- == 0) { break; }
    }
    return std::string(text.substr(0, end));
}

std::size_t character_count(std::string_view text) {
    std::size_t count = 0;
    for (const char c : text) { count += continues(c) ? 0 : 1; }
    return count;
}

} // namespace drawing
