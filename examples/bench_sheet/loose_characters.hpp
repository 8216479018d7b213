#pragma once
/// @file
/// A job file in ASCII alone before it is parsed: what is beyond ASCII may stand in double quotes and comments, and is
/// found outside of them - a plus-minus sign whose quotes were forgotten, most of all. (toml++ 3.3 loses its way at some of
/// it.)

#include <cstdint>
#include <cstdio>
#include <optional>
#include <string>
#include <string_view>

namespace bench_sheet {

/// A TOML text in ASCII that means the same, or the line, from 1, of a character beyond ASCII where none may stand.
struct ascii_text {
    std::string text{};
    std::optional<std::uint32_t> loose_line{};
};

/// The code point that a text begins with and how many bytes it takes; 0 bytes for what is not UTF-8 (RFC 3629).
struct utf8_start {
    std::uint32_t code = 0;
    std::size_t bytes = 0;
};
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

/// Characters beyond ASCII become escapes in double quotes and question marks in comments; anywhere else they are loose.
inline ascii_text in_ascii(std::string_view text) {
    ascii_text out;
    std::uint32_t line = 1;
    std::size_t i = text.starts_with("\xef\xbb\xbf") ? 3 : 0; // a byte order mark
    const auto beyond = [&](std::size_t at) { return static_cast<unsigned char>(text[at]) >= 0x80; };
    const auto take = [&] {
        line += text[i] == '\n' ? 1U : 0U;
        out.text += text[i++];
    };
    while (i < text.size()) {
        const char c = text[i];
        if (c == '#') {
            for (; i < text.size() && text[i] != '\n'; ++i) { out.text += beyond(i) ? '?' : text[i]; }
            continue;
        }
        if (c == '"' || c == '\'') {
            const std::string_view three = c == '"' ? "\"\"\"" : "'''";
            const bool many_lines = text.substr(i, 3) == three;
            const std::string_view end = many_lines ? three : three.substr(0, 1);
            for (std::size_t k = 0; k < end.size(); ++k) { take(); }
            while (i < text.size() && text.substr(i, end.size()) != end && (many_lines || text[i] != '\n')) {
                if (beyond(i)) {
                    const utf8_start start = c == '"' ? first_code_point(text.substr(i)) : utf8_start{};
                    if (start.bytes == 0) {
                        out.loose_line = line;
                        return out;
                    }
                    char escape[16];
                    std::snprintf(escape, sizeof escape, "\\U%08X", static_cast<unsigned>(start.code));
                    out.text += escape;
                    i += start.bytes;
                    continue;
                }
                // What a backslash escapes does not end the text, and is nothing beyond ASCII.
                const bool escapes = c == '"' && text[i] == '\\' && i + 1 < text.size();
                if (escapes && beyond(i + 1)) {
                    out.loose_line = line;
                    return out;
                }
                take();
                if (escapes && text[i] != '\n') { take(); }
            }
            for (std::size_t k = 0; k < end.size() && i < text.size() && text[i] != '\n'; ++k) { take(); }
            continue;
        }
        if (beyond(i)) {
            out.loose_line = line;
            return out;
        }
        take();
    }
    return out;
}

} // namespace bench_sheet
