#pragma once
/// @file
/// Answers as JSON (RFC 8259), put together from its parts.

#include <cmath>
#include <cstdio>
#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace page::json {

/// A text in quotes; its characters must be UTF-8.
[[nodiscard]] inline std::string text(std::string_view said) {
    std::string out = "\"";
    for (const char c : said) {
        const auto code = static_cast<unsigned char>(c);
        if (c == '"' || c == '\\') {
            out += '\\';
            out += c;
        } else if (code < 0x20) {
            char escaped[8];
            std::snprintf(escaped, sizeof escaped, "\\u%04x", code);
            out += escaped;
        } else {
            out += c;
        }
    }
    return out + "\"";
}
/// A number with all its digits; null where it is not finite.
[[nodiscard]] inline std::string number(double v) {
    if (!std::isfinite(v)) { return "null"; }
    char digits[32];
    std::snprintf(digits, sizeof digits, "%.17g", v);
    return digits;
}
/// Values that are JSON already, by their names.
[[nodiscard]] inline std::string object(std::initializer_list<std::pair<const char*, std::string>> members) {
    std::string out;
    for (const auto& [name, value] : members) { out += (out.empty() ? "{" : ",") + text(name) + ":" + value; }
    return out.empty() ? "{}" : out + "}";
}
[[nodiscard]] inline std::string list(const std::vector<std::string>& values) {
    std::string out = "[";
    for (const std::string& value : values) { out += (out.size() > 1 ? "," : "") + value; }
    return out + "]";
}

} // namespace page::json
