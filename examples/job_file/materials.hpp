#pragma once
/// @file
/// The table of string materials, as text for people.

#include <string>

namespace job_file {

/// Every material by name: density, modulus, strength, short names and the sources of its values.
std::string materials_document();

} // namespace job_file
