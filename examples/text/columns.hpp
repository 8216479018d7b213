#pragma once
/// @file
/// Text for a terminal: aligned columns, and lines broken between words.

#include <algorithm>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace safe_text {

/// The columns a text takes on a terminal: one for each UTF-8 character (the programs use no wider ones).
inline std::size_t columns(std::string_view text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) { return (c & 0xc0) != 0x80; }));
}

/// The widths of the columns of some rows: each is that of its widest cell.
inline std::vector<std::size_t> widths(std::span<const std::vector<std::string>> rows) {
    std::vector<std::size_t> w;
    for (const auto& r : rows) {
        w.resize(std::max(w.size(), r.size()), 0);
        for (std::size_t i = 0; i < r.size(); ++i) { w[i] = std::max(w[i], columns(r[i])); }
    }
    return w;
}
/// A right-aligned cell.
inline std::string padded(const std::string& cell, std::size_t width) {
    return std::string(width - columns(cell), ' ') + cell;
}

/// Rows of cells as text. The first column is aligned left, the others right; each is as wide as its widest cell. Two
/// spaces begin each line.
inline std::string table_text(std::span<const std::vector<std::string>> rows) {
    const std::vector<std::size_t> w = widths(rows);
    std::string out;
    for (const auto& r : rows) {
        std::string line = "  ";
        for (std::size_t i = 0; i < r.size(); ++i) {
            line += i == 0 ? r[i] + std::string(w[i] - columns(r[i]), ' ') : "  " + padded(r[i], w[i]);
        }
        line.erase(line.find_last_not_of(' ') + 1);
        out += line + "\n";
    }
    return out;
}
/// A table filled row by row.
class text_table {
public:
    explicit text_table(std::vector<std::string> head) : rows_{std::move(head)} {}
    void row(std::vector<std::string> cells) { rows_.push_back(std::move(cells)); }
    [[nodiscard]] std::string text() const { return table_text(rows_); }

private:
    std::vector<std::vector<std::string>> rows_;
};

/// Text broken between words into lines of at most `width` columns. The first line begins with `begin`, the others with as
/// many spaces. A word longer than a line has a line of its own, and a ± stays with its number.
inline std::string wrapped(std::string_view text, const std::string& begin, std::size_t width = 100) {
    std::string out, line = begin;
    bool begun = false;
    while (!text.empty()) {
        std::size_t space = std::min(text.find(' '), text.size());
        if (text.substr(0, space) == "\u00b1") { space = std::min(text.find(' ', space + 1), text.size()); }
        const std::string_view word = text.substr(0, space);
        if (begun && columns(line) + 1 + columns(word) > width) {
            out += line + "\n";
            line.assign(columns(begin), ' ');
            begun = false;
        }
        line += (begun ? " " : "") + std::string(word);
        begun = true;
        text.remove_prefix(std::min(space + 1, text.size()));
    }
    return out + line + "\n";
}
/// The same, with every line indented.
inline std::string wrapped(std::string_view text, std::size_t indent, std::size_t width = 100) {
    return wrapped(text, std::string(indent, ' '), width);
}

} // namespace safe_text
