#pragma once
/// @file
/// Turns a job file into ASCII before it is parsed. Characters beyond ASCII may stand in double quotes and comments.
/// Outside of them they are mistakes, mostly a plus-minus sign without its quotes. (toml++ 3.3 fails at some of them.)

#include <cstdint>
#include <cstdio>
#include <optional>
#include <string>
#include <string_view>

#include "../text/utf8.hpp"

namespace job_file {

/// A TOML text in ASCII with the same meaning, or the line, from 1, of a misplaced character beyond ASCII.
struct ascii_text {
    std::string text{};
    std::optional<std::uint32_t> loose_line{};
};

/// Characters beyond ASCII become escapes in double quotes and question marks in comments. Anywhere else they are mistakes.
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
                    const auto start = c == '"' ? safe_text::first_code_point(text.substr(i)) : safe_text::utf8_start{};
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
                // An escaped character does not end the text and is ASCII.
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

} // namespace job_file
