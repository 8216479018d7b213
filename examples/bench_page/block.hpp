#pragma once
/// @file
/// A part of a sheet: heads, rows of cells and sentences. Lines are not broken yet, and there is no markup.

#include <string>
#include <vector>

namespace bench_sheet {

/// A sentence. A marked one begins with a word and a colon, which are made to stand out.
struct block_sentence {
    std::string words{};
    bool marked = false;
};
/// Rows of cells, heads first.
using block_rows = std::vector<std::vector<std::string>>;
/// A part of the sheet. It is empty if there is nothing to say.
struct block {
    std::string heading{};
    block_rows rows{};
    std::vector<block_sentence> sentences{};

    [[nodiscard]] bool empty() const { return rows.empty() && sentences.empty(); }
};

} // namespace bench_sheet
