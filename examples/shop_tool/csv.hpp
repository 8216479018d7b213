#pragma once
/// @file
/// Comma-separated values (RFC 4180) out of a shop and back into it.

#include <cstdio>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "../text/csv.hpp"
#include "shop.hpp"

namespace shop {

inline constexpr std::string_view csv_head = "instrument,table,path,value,kind";

using safe_text::begins_formula;

/// The byte that an escape such as "\x1b" at the start of a text stands for; nothing for other texts.
inline std::optional<char> written_out_byte(std::string_view text) {
    constexpr std::string_view digits = "0123456789abcdef";
    if (text.size() < 4 || !text.starts_with("\\x")) { return std::nullopt; }
    const std::size_t high = digits.find(text[2]), low = digits.find(text[3]);
    if (high == digits.npos || low == digits.npos) { return std::nullopt; }
    return static_cast<char>(high * 16 + low);
}

/// A text as a field in quotes: every character seen, and no formula of a spreadsheet. `text_of_field` gives it back.
inline std::string csv_field(std::string_view text) {
    std::string plain;
    for (std::size_t i = 0; i < text.size(); ++i) {
        // A text that only looks like an escaped byte.
        plain += written_out_byte(text.substr(i)) ? "\\x5c" : std::string(1, text[i]);
    }
    const bool looks_kept = plain.starts_with('\'') && (begins_formula(plain.substr(1)) || plain.starts_with("''"));
    return safe_text::csv_quoted((begins_formula(plain) || looks_kept ? "'" : "") + shown(plain));
}
/// The text a field was made of. The field comes without its quotes.
inline std::string text_of_field(std::string_view field) {
    if (field.starts_with('\'') && (begins_formula(field.substr(1)) || field.starts_with("''"))) { field.remove_prefix(1); }
    std::string out;
    while (!field.empty()) {
        const auto byte = written_out_byte(field);
        out += byte.value_or(field.front());
        field.remove_prefix(byte ? 4 : 1);
    }
    return out;
}

/// The fields of a line, without their quotes; nothing where the quotes do not match.
inline std::optional<std::vector<std::string>> csv_fields(std::string_view line) {
    std::vector<std::string> fields(1);
    bool quoted = false;
    for (std::size_t i = 0; i < line.size(); ++i) {
        const char c = line[i];
        if (c == '"' && quoted && i + 1 < line.size() && line[i + 1] == '"') {
            fields.back() += line[++i];
        } else if (c == '"') {
            quoted = !quoted;
        } else if (c == ',' && !quoted) {
            fields.emplace_back();
        } else {
            fields.back() += c;
        }
    }
    return quoted ? std::nullopt : std::optional(fields);
}

/// Every measurement and result of an instrument, one line each. Numbers are in SI and lose no digit.
inline std::string csv_lines(const database& db, const entry& e) {
    std::string out;
    for (const char* table : {"measurements", "results"}) {
        statement s(db, std::string("SELECT path, value, kind FROM ") + table + " WHERE instrument = ? ORDER BY path");
        s.with(e.id);
        while (s.next()) {
            char number[64];
            std::snprintf(number, sizeof number, "%.17g", s.number(1));
            out += csv_field(e.name) + "," + table + "," + csv_field(s.text(0)) + "," + number + "," +
                   csv_field(s.text(2)) + "\r\n";
        }
    }
    return out;
}

} // namespace shop
