#pragma once
/// @file
/// Characters of UTF-8 (RFC 3629), one at a time.

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace safe_text {

/// The first code point of a text and its number of bytes; 0 bytes when the text is not UTF-8.
struct utf8_start {
    std::uint32_t code = 0;
    std::size_t bytes = 0;
};

/// The first character of a text that is not empty. Refuses overlong forms, surrogates and anything past U+10FFFF (RFC
/// 3629).
inline utf8_start first_code_point(std::string_view text) {
    const auto byte = [&](std::size_t i) { return static_cast<std::uint32_t>(static_cast<unsigned char>(text[i])); };
    const std::uint32_t lead = byte(0);
    const std::size_t bytes = lead < 0x80                    ? 1
                              : lead >= 0xc2 && lead < 0xe0  ? 2
                              : lead >= 0xe0 && lead < 0xf0  ? 3
                              : lead >= 0xf0 && lead <= 0xf4 ? 4
                                                             : 0;
    if (bytes == 0 || bytes > text.size()) { return {}; }
    std::uint32_t code = bytes == 1 ? lead : lead & (0x7fU >> bytes);
    for (std::size_t i = 1; i < bytes; ++i) {
        if ((byte(i) & 0xc0U) != 0x80) { return {}; }
        code = (code << 6U) | (byte(i) & 0x3fU);
    }
    constexpr std::uint32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
    const bool surrogate = code >= 0xd800 && code <= 0xdfff;
    return code < least[bytes] || code > 0x10ffff || surrogate ? utf8_start{} : utf8_start{code, bytes};
}

} // namespace safe_text
