#pragma once
/// @file
/// The inputs of a sweep as somebody types them: names, and values with their units.

#include <tautline/doubt/sweep.hpp>

#include "sweeping.hpp"

namespace bench_sheet {

/// What is to be turned, through which values.
/// @throws wrong_option for a name that is none of the model's numbers, or is given twice, and for what is no value of its
/// kind
std::vector<tl::knob> knobs_of(const tl::strung_instrument& model, const sweep_request& r);

} // namespace bench_sheet
