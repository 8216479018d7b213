#pragma once
/// @file
/// Characters that TOML has only in texts and comments, found outside of them: a plus-minus sign whose quotes were
/// forgotten, most of all.

#include <cstdint>
#include <optional>
#include <string_view>

namespace bench_sheet {

/// The line, from 1, of the first character beyond ASCII that stands outside quotes and comments or behind a backslash;
/// nothing where there is none. (TOML 1.0: bare keys and all that is no string are ASCII.)
constexpr std::optional<std::uint32_t> line_of_loose_character(std::string_view text) {
    std::uint32_t line = 1;
    std::size_t i = text.starts_with("\xef\xbb\xbf") ? 3 : 0; // a byte order mark
    const auto counted = [&](char c) { line += c == '\n' ? 1U : 0U; };
    while (i < text.size()) {
        const char c = text[i];
        if (c == '#') {
            while (i < text.size() && text[i] != '\n') { ++i; }
            continue;
        }
        if (c == '"' || c == '\'') {
            const std::string_view three = c == '"' ? "\"\"\"" : "'''";
            const bool many_lines = text.substr(i, 3) == three;
            const std::string_view end = many_lines ? three : three.substr(0, 1);
            i += end.size();
            while (i < text.size() && text.substr(i, end.size()) != end && (many_lines || text[i] != '\n')) {
                counted(text[i]);
                const bool escapes = c == '"' && text[i] == '\\' && i + 1 < text.size();
                if (escapes && static_cast<unsigned char>(text[i + 1]) >= 0x80) { return line; }
                // What a backslash escapes does not end the text.
                i += escapes && text[i + 1] != '\n' ? 2 : 1;
            }
            if (i < text.size() && text[i] != '\n') { i += end.size(); }
            continue;
        }
        if (static_cast<unsigned char>(c) >= 0x80) { return line; }
        counted(c);
        ++i;
    }
    return std::nullopt;
}

} // namespace bench_sheet
