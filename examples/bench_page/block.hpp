#pragma once
/// @file
/// A part of a sheet: heads, rows of cells and sentences, unbroken and not yet marked up.

#include <string>
#include <vector>

namespace bench_sheet {

/// A sentence; one that must not be overread begins with a mark before a colon.
struct block_sentence {
    std::string words{};
    bool marked = false;
};
/// Rows of cells, heads first.
using block_rows = std::vector<std::vector<std::string>>;
/// A part of the sheet; nothing of it where there is nothing to say.
struct block {
    std::string heading{};
    block_rows rows{};
    std::vector<block_sentence> sentences{};

    [[nodiscard]] bool empty() const { return rows.empty() && sentences.empty(); }
};

} // namespace bench_sheet
