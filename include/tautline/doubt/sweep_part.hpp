#pragma once
/// @file
/// Parts of a sweep: the rows that one of several machines computes, and blocks of rows that are computed and told one
/// after the other.
///
/// A row depends on its place in the whole alone (a sample's on its seed, too), so parts that stand one below the other are
/// the whole.

#include <algorithm>
#include <charconv>
#include <cstddef>
#include <optional>
#include <string_view>

#include "knob.hpp"

namespace tautline {

/// Rows of a sweep that stand one after the other.
struct row_range {
    std::size_t first = 0;             ///< place of the first in the whole sweep, from 0
    std::size_t count = most_variants; ///< how many; those beyond the end of the sweep are left out

    /// The same without the rows beyond the end.
    /// @param rows rows of the whole sweep
    [[nodiscard]] constexpr row_range within(std::size_t rows) const {
        const std::size_t from = std::min(first, rows);
        return {from, std::min(count, rows - from)};
    }
};

/// Most parts of a sweep.
inline constexpr std::size_t most_parts = most_variants;

/// One of the parts that make a sweep together: the third of eight is `{3, 8}`.
struct sweep_part {
    std::size_t number = 1; ///< which part, from 1 to `of`
    std::size_t of = 1;     ///< how many parts there are, 1 to `most_parts`

    /// The rows of this part. Parts differ by one row at most; of a sweep of fewer rows than parts some have none.
    /// @param rows rows of the whole sweep, at most `most_variants`
    /// @throws invalid_input for a part that is none of them
    [[nodiscard]] constexpr row_range rows_of(std::size_t rows) const {
        require_that(1 <= of && of <= most_parts && 1 <= number && number <= of, "part",
                     "must be one of the parts that there are, counted from 1");
        require_that(rows <= most_variants, "rows", "must be no more than a sweep may have");
        // The products stay far below what a size holds.
        const auto begin = [&](std::size_t parts_before) {
            return static_cast<std::size_t>(static_cast<unsigned long long>(rows) * parts_before / of);
        };
        return {begin(number - 1), begin(number) - begin(number - 1)};
    }
};

/// A part from text: "3/8" is the third of eight. Nothing for any other text, for "0/8" and for "9/8".
[[nodiscard]] inline std::optional<sweep_part> find_part(std::string_view text) {
    const std::size_t slash = text.find('/');
    if (slash == std::string_view::npos) { return std::nullopt; }
    const auto number = [](std::string_view digits) -> std::size_t {
        std::size_t n = 0;
        const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), n);
        return error == std::errc() && end == digits.data() + digits.size() ? n : 0;
    };
    const sweep_part part{number(text.substr(0, slash)), number(text.substr(slash + 1))};
    const bool is_one = 1 <= part.number && part.number <= part.of && part.of <= most_parts;
    return is_one ? std::optional(part) : std::nullopt;
}

/// Rows that are computed at once where a sweep is told in blocks: so many are held, however many there are in all.
inline constexpr std::size_t rows_in_flight = 4096;

/// Computes rows block by block, each told before the next is computed: what is held does not grow with the rows.
/// @param rows the rows, within the sweep
/// @param compute makes the table of a `row_range`: `sweep_grid` with `sweep_settings::rows`, for example
/// @param take gets each table; returns whether the next is wanted
/// @param at_once rows of a block, 1 or more
/// @return whether all rows were taken
template <class Compute, class Take>
bool for_each_block(const row_range& rows, Compute&& compute, Take&& take, std::size_t at_once = rows_in_flight) {
    require_that(at_once > 0, "at_once", "must be 1 or more");
    for (std::size_t done = 0; done < rows.count; done += at_once) {
        if (!take(compute(row_range{rows.first + done, std::min(at_once, rows.count - done)}))) { return false; }
    }
    return true;
}

} // namespace tautline
