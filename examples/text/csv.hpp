#pragma once
/// @file
/// Comma-separated values (RFC 4180) for spreadsheets.

#include <cstdio>
#include <string>
#include <string_view>
#include <vector>

#include "shown.hpp"

namespace safe_text {

/// Whether a text begins as a spreadsheet's formula does.
inline bool begins_formula(std::string_view text) {
    return !text.empty() && std::string_view("=+-@").find(text.front()) != std::string_view::npos;
}
/// A text in quotes, with the quotes inside it doubled.
inline std::string csv_quoted(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) { out += c == '"' ? std::string("\"\"") : std::string(1, c); }
    return out + "\"";
}
/// A text, in quotes if it needs them.
inline std::string csv_plain(std::string_view text) {
    return text.find_first_of(",\"\r\n") == std::string_view::npos ? std::string(text) : csv_quoted(text);
}
/// A text from outside as a field. Every character is visible, quotes are added if needed, and the field never begins like
/// a spreadsheet's formula.
inline std::string csv_field(std::string_view raw) {
    const std::string text = shown(raw);
    return csv_plain(begins_formula(text) ? "'" + text : text);
}
/// A number as a cell: decimal point, no grouping, nine digits.
inline std::string csv_number(double v) {
    char buffer[40];
    std::snprintf(buffer, sizeof buffer, "%.9g", v);
    return buffer;
}
/// A line, without its end, of cells that are written as they are.
inline std::string csv_line(const std::vector<std::string>& cells) {
    std::string line;
    for (std::size_t i = 0; i < cells.size(); ++i) { line += (i ? "," : "") + cells[i]; }
    return line;
}

/// Several such lines, each with its end.
inline std::string csv_text(const std::vector<std::vector<std::string>>& rows) {
    std::string text;
    for (const auto& cells : rows) { text += csv_line(cells) + "\r\n"; }
    return text;
}

} // namespace safe_text
