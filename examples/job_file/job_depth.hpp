#pragma once
/// @file
/// How deeply a job file nests, found before it is parsed. The TOML library calls itself once for each level. For dotted
/// keys it has no bound, and a file of a hundred thousand levels would overflow the stack.

#include <optional>
#include <string>
#include <string_view>

#include "mistakes.hpp"

namespace job_file {

/// The most parts of a dotted key, and the most levels of lists and sections. The keys of a job file need less than half as
/// many.
inline constexpr std::uint32_t deepest = 16;

/// The text after a quoted string whose first quote is the first character. A string that is not closed ends with its line,
/// or with the text if it may have many lines.
inline std::string_view behind_string(std::string_view text, std::uint32_t& line) {
    const char quote = text.front();
    const std::string_view three = quote == '"' ? "\"\"\"" : "'''";
    const bool many_lines = text.starts_with(three);
    const std::string_view end = many_lines ? three : three.substr(0, 1);
    text.remove_prefix(end.size());
    while (!text.empty() && !text.starts_with(end)) {
        if (text.front() == '\n') {
            if (!many_lines) { return text; }
            ++line;
        }
        // An escaped character does not end the string.
        const bool escapes = quote == '"' && text.front() == '\\' && text.size() > 1 && text[1] != '\n';
        text.remove_prefix(escapes ? 2 : 1);
    }
    text.remove_prefix(std::min(end.size(), text.size()));
    return text;
}

/// The first place where a TOML text nests too deeply, if any.
inline std::optional<mistake> too_deep(std::string_view text) {
    std::uint32_t line = 1, inside = 0, parts = 1;
    while (!text.empty()) {
        const char c = text.front();
        if (c == '"' || c == '\'') {
            text = behind_string(text, line);
            continue;
        }
        if (c == '#') {
            text.remove_prefix(std::min(text.find('\n'), text.size()));
            continue;
        }
        text.remove_prefix(1);
        if (c == '.') {
            if (++parts > deepest) {
                return mistake{line, "this key has more than " + std::to_string(deepest) +
                                         " parts with dots between; expected " +
                                         "a section and a key, as in board.thickness"};
            }
            continue;
        }
        const bool opens = c == '[' || c == '{', closes = c == ']' || c == '}', ends = c == '\n';
        if (opens && ++inside > deepest) {
            return mistake{line, "more than " + std::to_string(deepest) +
                                     " lists or sections stand in one another; expected a " +
                                     "list of quantities or of sections"};
        }
        if (closes && inside > 0) { --inside; }
        if (opens || closes || ends || c == '=' || c == ',') { parts = 1; }
        if (ends) { ++line; }
    }
    return std::nullopt;
}

} // namespace job_file
