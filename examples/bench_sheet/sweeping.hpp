#pragma once
/// @file
/// Many variants of a job at once: inputs go through ranges or lists, or through a random sample of what the file doubts.

#include <cstdint>
#include <functional>
#include <iosfwd>
#include <optional>

#include <tautline/doubt/sweep_part.hpp>

#include "sheet.hpp"

namespace bench_sheet {

using namespace job_file;

/// What is to be varied and tabled. Inputs are paths of the instrument and its strings as planned, or as found where
/// nothing is planned.
struct sweep_request {
    std::vector<std::string> ranges{};  ///< in fours: input, from, to, how many
    std::vector<std::string> lists{};   ///< in twos: input, values parted by commas
    std::vector<std::string> results{}; ///< paths of results; none: those the sheet begins with
    std::uint64_t sample = 0;           ///< so many random variants of the doubted measurements
    std::uint64_t seed = 1;
    std::optional<tl::sweep_part> part{}; ///< the rows of one part alone, as comma-separated values

    [[nodiscard]] bool wanted() const { return !ranges.empty() || !lists.empty() || sample > 0; }
};

/// Takes text piece by piece; returns whether more is wanted.
using text_taker = std::function<bool(const std::string&)>;

/// The table of a sweep: a row a variant, or for a sample a row a result with its spread. As comma-separated values a cell
/// holds one number, its unit stands in the next, and the last says why a row was refused. These are told as they are
/// computed, some thousand rows at a time; of a part, also of a sample, each variant has its row.
/// @param csv whether comma-separated values are wanted
/// @param progress gets a line now and then on long runs; may be null
/// @throws tl::invalid_input for what cannot be varied or tabled, named by its option
void tell_sweep(const whole_job& w, const sweep_request& r, bool csv, measures m, const text_taker& take,
                std::ostream* progress);

} // namespace bench_sheet
