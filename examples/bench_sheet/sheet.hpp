#pragma once
/// @file
/// The bench sheet as text: one page a repairer takes to the bench, details behind flags.

#include <string>

#include "detail.hpp"
#include "whole_job.hpp"

namespace bench_sheet {

/// The cautions that every sheet carries.
std::string cautions();

/// How a sheet is wanted.
struct sheet_options {
    measures units = measures::metric;
    bool detail = false;  ///< every string over every fret, forces at every end
    bool steps = false;   ///< every number of every step
    bool changes = false; ///< every result that changes
    bool budget = false;  ///< every measurement's part in every doubt
    bool fine = false;    ///< numbers that are worked to with all decimals
    bool bold = false;    ///< marks stand out on a terminal
};

/// `tl::answer`, compiled once for all parts.
tl::job_answers answers_of(const tl::bench_job& job);

/// The sheet.
std::string sheet(const whole_job& w, const sheet_options& how);

} // namespace bench_sheet
