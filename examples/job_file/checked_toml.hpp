#pragma once
/// @file
/// toml++ whose own assumptions throw instead of ending the program: version 3.3 takes some broken keys for impossible
/// (`[[`), and with NDEBUG would go on from there as if they were.

#include <stdexcept>

namespace job_file {

/// Thrown when something happened that the parser takes for impossible.
class broken_assumption : public std::logic_error {
    using std::logic_error::logic_error;
};

} // namespace job_file

// In its noexcept functions a broken assumption still ends the program; the fuzzer has met none there.
#if !defined(__clang__)
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wterminate"
#endif
#pragma push_macro("NDEBUG")
#undef NDEBUG
#define TOML_ASSERT(expr) ((expr) ? void() : throw ::job_file::broken_assumption(#expr))
#include <toml++/toml.h>
#pragma pop_macro("NDEBUG")
#if !defined(__clang__)
#pragma GCC diagnostic pop
#endif
