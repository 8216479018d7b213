#pragma once
/// @file
/// The table of the materials that strings are made of, for people.

#include <string>

namespace job_file {

/// Every material by name: density, modulus, strength, short names and where the values are from.
std::string materials_document();

} // namespace job_file
