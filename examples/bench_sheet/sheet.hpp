#pragma once
/// @file
/// The bench sheet as text: one page a repairer takes to the bench, details behind flags.

#include <string>

#include <tautline/core/by_path.hpp>
#include <tautline/job/answer.hpp>

#include "detail.hpp"

namespace bench_sheet {

/// The cautions that every sheet carries.
inline constexpr std::string_view cautions =
    "Cautions\n"
    "  A string at pitch can cut and can take an eye: slacken before working, wear eye protection. Old necks,\n"
    "  tops and joints can fail at tensions they once bore. Dust of hard tropical woods, shell and metal,\n"
    "  solvents and cyanoacrylate need extraction, gloves and air. Loads are estimates from measurements: where\n"
    "  a failure would hurt someone or spoil an instrument of value, a qualified repairer decides.\n";

/// How a sheet is wanted.
struct sheet_options {
    measures units = measures::metric;
    bool detail = false;  ///< every string over every fret, forces at every end
    bool steps = false;   ///< every number of every step
    bool changes = false; ///< every result that changes
    bool budget = false;  ///< every measurement's part in every doubt
    bool bold = false;    ///< marks stand out on a terminal
};

/// A job with its answers.
struct whole_job {
    const tl::bench_job& job;
    const tl::job_answers& a;
};

/// `tl::answer`, compiled once for all parts.
tl::job_answers answers_of(const tl::bench_job& job);

/// The sheet.
std::string sheet(const whole_job& w, const sheet_options& how);

} // namespace bench_sheet
