#pragma once
/// @file
/// A table as rows of texts, written as aligned text, as CSV (RFC 4180) or as Markdown.

#include <ostream>
#include <string>
#include <vector>

#include "../../text/columns.hpp"
#include "../../text/csv.hpp"

namespace tension_table {

struct table {
    std::vector<std::string> head;
    std::vector<std::vector<std::string>> rows;
};

/// Width of each column, the head's cells among them.
inline std::vector<std::size_t> widths(const table& t) {
    auto all = t.rows;
    all.push_back(t.head);
    return safe_text::widths(all);
}

/// Columns set right, a line under the head.
inline void write_text(std::ostream& out, const table& t) {
    const auto w = widths(t);
    const auto line = [&](const std::vector<std::string>& cells) {
        std::string text;
        for (std::size_t i = 0; i < cells.size(); ++i) {
            text += (i == 0 ? "  " : "   ") + safe_text::padded(cells[i], w[i]);
        }
        out << text.substr(0, text.find_last_not_of(' ') + 1) << '\n';
    };
    line(t.head);
    std::size_t whole = 0;
    for (std::size_t i = 0; i < w.size(); ++i) { whole += w[i] + (i == 0 ? 0 : 3); }
    out << "  " << std::string(whole, '-') << '\n';
    for (const auto& r : t.rows) { line(r); }
}

inline void write_markdown(std::ostream& out, const table& t) {
    const auto w = widths(t);
    const auto line = [&](const std::vector<std::string>& cells) {
        out << '|';
        for (std::size_t i = 0; i < cells.size(); ++i) { out << ' ' << safe_text::padded(cells[i], w[i]) << " |"; }
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
    const auto line = [&](std::vector<std::string> cells) {
        for (std::string& cell : cells) { cell = safe_text::csv_plain(cell); }
        out << safe_text::csv_line(cells) << '\n';
    };
    line(t.head);
    for (const auto& r : t.rows) { line(r); }
}

} // namespace tension_table
