#pragma once
/// @file
/// Many variants of a job: inputs go through ranges or lists, or a random sample is drawn from the doubts of the file.

#include <cstdint>
#include <functional>
#include <iosfwd>
#include <optional>

#include <tautline/doubt/sweep_part.hpp>

#include "sheet.hpp"

namespace bench_sheet {

using namespace job_file;

/// The inputs to vary and the results to table. Inputs are paths of the planned instrument and its strings, or of the
/// found one if nothing is planned.
struct sweep_request {
    std::vector<std::string> ranges{};  ///< four texts for each input: its path, first value, last value, count
    std::vector<std::string> lists{};   ///< two texts for each input: its path, and values with commas between
    std::vector<std::string> results{}; ///< paths of results; if empty, those at the head of the sheet
    std::size_t sample = 0;             ///< number of random variants; 0 is no sample
    std::uint64_t seed = 1;
    std::optional<tl::sweep_part> part{}; ///< one part alone, as CSV

    [[nodiscard]] bool wanted() const { return !ranges.empty() || !lists.empty() || sample > 0; }
};

/// Takes a piece of text. Returns whether more is wanted.
using text_taker = std::function<bool(const std::string&)>;

/// Writes the table of a sweep. It has one row for each variant; that of a sample has one row for each result, with its
/// spread. In CSV a cell holds one number, the next cell holds its unit, and the last cell of a row says why the row was
/// refused. CSV rows are written as they are computed, some thousand at a time. A part has one row for each variant, also
/// that of a sample.
/// @param csv whether to write CSV
/// @param progress a stream that gets a line now and then on long runs; may be null
/// @throws tl::invalid_input if an input cannot be varied or a result cannot be tabled; it names the option
void tell_sweep(const whole_job& w, const sweep_request& r, bool csv, measures m, const text_taker& take,
                std::ostream* progress);

} // namespace bench_sheet
