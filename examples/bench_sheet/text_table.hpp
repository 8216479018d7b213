#pragma once
/// @file
/// Aligned columns of text for a terminal.

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

namespace bench_sheet {

/// Columns a text takes on a terminal: one for each UTF-8 character (the sheet uses none that are wider).
inline std::size_t columns(std::string_view text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) { return (c & 0xc0) != 0x80; }));
}

/// Rows of cells; the first column is set left, the others right, each as wide as its widest cell.
class text_table {
public:
    explicit text_table(std::vector<std::string> head) : rows_{std::move(head)} {}
    void row(std::vector<std::string> cells) { rows_.push_back(std::move(cells)); }

    /// The table, each line indented by two.
    [[nodiscard]] std::string text() const {
        std::vector<std::size_t> widths;
        for (const auto& r : rows_) {
            widths.resize(std::max(widths.size(), r.size()), 0);
            for (std::size_t i = 0; i < r.size(); ++i) { widths[i] = std::max(widths[i], columns(r[i])); }
        }
        std::string out;
        for (const auto& r : rows_) {
            std::string line = "  ";
            for (std::size_t i = 0; i < r.size(); ++i) {
                const std::string pad(widths[i] - columns(r[i]), ' ');
                line += i == 0 ? r[i] + pad : "  " + pad + r[i];
            }
            line.erase(line.find_last_not_of(' ') + 1);
            out += line + "\n";
        }
        return out;
    }

private:
    std::vector<std::vector<std::string>> rows_;
};

/// Text broken between words into lines of at most `width` columns, each after the first begun with `indent` spaces; a word
/// that is longer than a line keeps a line of its own.
inline std::string wrapped(std::string_view text, std::size_t indent, std::size_t width = 100) {
    std::string out, line(indent, ' ');
    bool begun = false;
    while (!text.empty()) {
        const std::size_t space = std::min(text.find(' '), text.size());
        const std::string_view word = text.substr(0, space);
        if (begun && columns(line) + 1 + columns(word) > width) {
            out += line + "\n";
            line.assign(indent, ' ');
            begun = false;
        }
        line += (begun ? " " : "") + std::string(word);
        begun = true;
        text.remove_prefix(std::min(space + 1, text.size()));
    }
    return out + line + "\n";
}

} // namespace bench_sheet
