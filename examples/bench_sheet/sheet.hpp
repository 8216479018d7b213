#pragma once
/// @file
/// The bench sheet as text. A repairer takes it to the bench; options add details.

#include <string>

#include "detail.hpp"
#include "whole_job.hpp"

namespace bench_sheet {

/// The cautions that every sheet carries.
std::string cautions();

/// The options of a sheet.
struct sheet_options {
    measures units = measures::metric;
    bool detail = false;  ///< every string over every fret, forces at every end
    bool steps = false;   ///< every number of every step
    bool changes = false; ///< every result that changes
    bool budget = false;  ///< every measurement's part in every doubt
    bool fine = false;    ///< all decimals of numbers that are worked to
    bool bold = false;    ///< bold marks, for a terminal
};

/// `tl::answer`, compiled once for all parts.
tl::job_answers answers_of(const tl::bench_job& job);

/// The sheet.
std::string sheet(const whole_job& w, const sheet_options& how);

} // namespace bench_sheet
