#include "text.hpp"

#include "../text/shown.hpp"

namespace drawing {

namespace {

constexpr std::string_view ellipsis = "\xE2\x80\xA6"; // U+2026

constexpr bool continues(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

} // namespace

std::string printable(std::string_view text, std::size_t most) {
    const std::string whole = safe_text::shown(text);
    if (character_count(whole) <= most) { return whole; }
    return first_characters(whole, most > 0 ? most - 1 : 0).append(ellipsis);
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
