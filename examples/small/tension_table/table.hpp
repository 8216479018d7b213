#pragma once
/// @file
/// A table as rows of texts, written as aligned text, as CSV (RFC 4180) or as Markdown.

#include <algorithm>
#include <ostream>
#include <string>
#include <string_view>
#include <vector>

namespace tension_table {

struct table {
    std::vector<std::string> head;
    std::vector<std::vector<std::string>> rows;
};

namespace detail {

inline std::vector<std::size_t> widths(const table& t) {
    std::vector<std::size_t> w;
    const auto widen = [&](const std::vector<std::string>& cells) {
        w.resize(std::max(w.size(), cells.size()), 0);
        for (std::size_t i = 0; i < cells.size(); ++i) { w[i] = std::max(w[i], cells[i].size()); }
    };
    widen(t.head);
    for (const auto& r : t.rows) { widen(r); }
    return w;
}
inline std::string padded(const std::string& cell, std::size_t width) {
    return std::string(width - cell.size(), ' ') + cell;
}

} // namespace detail

/// Columns set right, a line under the head.
inline void write_text(std::ostream& out, const table& t) {
    const auto w = detail::widths(t);
    const auto line = [&](const std::vector<std::string>& cells) {
        std::string text;
        for (std::size_t i = 0; i < cells.size(); ++i) { text += (i == 0 ? "  " : "   ") + detail::padded(cells[i], w[i]); }
        out << text.substr(0, text.find_last_not_of(' ') + 1) << '\n';
    };
    line(t.head);
    std::size_t whole = 0;
    for (std::size_t i = 0; i < w.size(); ++i) { whole += w[i] + (i == 0 ? 0 : 3); }
    out << "  " << std::string(whole, '-') << '\n';
    for (const auto& r : t.rows) { line(r); }
}

inline void write_markdown(std::ostream& out, const table& t) {
    const auto w = detail::widths(t);
    const auto line = [&](const std::vector<std::string>& cells) {
        out << '|';
        for (std::size_t i = 0; i < cells.size(); ++i) { out << ' ' << detail::padded(cells[i], w[i]) << " |"; }
        out << '\n';
    };
    line(t.head);
    out << '|';
    for (const std::size_t width : w) { out << std::string(width + 1, '-') << ":|"; }
    out << '\n';
    for (const auto& r : t.rows) { line(r); }
}

/// A cell with a comma, a quote or a line end is put into quotes.
inline void write_csv(std::ostream& out, const table& t) {
    const auto line = [&](const std::vector<std::string>& cells) {
        for (std::size_t i = 0; i < cells.size(); ++i) {
            out << (i == 0 ? "" : ",");
            if (cells[i].find_first_of(",\"\n") == std::string::npos) {
                out << cells[i];
                continue;
            }
            out << '"';
            for (const char c : cells[i]) { out << (c == '"' ? "\"\"" : std::string(1, c)); }
            out << '"';
        }
        out << '\n';
    };
    line(t.head);
    for (const auto& r : t.rows) { line(r); }
}

} // namespace tension_table
