#pragma once
/// @file
/// Which version of Tautline this is, for programs that must know. This is the one place that says it: CMake and the
/// packages read it here.

/// @namespace tautline
/// All of the library: its models, formulas and answers, in one list. Headers are listed by folder under Files.

#include <string_view>

/// Parts of the version. While the first is 0, a change of the second may change interfaces; afterwards only a change of
/// the first may.
#define TAUTLINE_VERSION_MAJOR 0
/// See TAUTLINE_VERSION_MAJOR.
#define TAUTLINE_VERSION_MINOR 2
/// See TAUTLINE_VERSION_MAJOR.
#define TAUTLINE_VERSION_PATCH 0

/// The version as one number that grows, for `#if TAUTLINE_VERSION >= 200` (that is 0.2.0).
#define TAUTLINE_VERSION (TAUTLINE_VERSION_MAJOR * 10000 + TAUTLINE_VERSION_MINOR * 100 + TAUTLINE_VERSION_PATCH)

#define TAUTLINE_AS_TEXT(PART) #PART
#define TAUTLINE_JOINED(FIRST, SECOND, THIRD)                                                                              \
    TAUTLINE_AS_TEXT(FIRST) "." TAUTLINE_AS_TEXT(SECOND) "." TAUTLINE_AS_TEXT(THIRD)

namespace tautline {

/// The version as text, "1.2.3".
inline constexpr std::string_view version_text =
    TAUTLINE_JOINED(TAUTLINE_VERSION_MAJOR, TAUTLINE_VERSION_MINOR, TAUTLINE_VERSION_PATCH);

} // namespace tautline

#undef TAUTLINE_JOINED
#undef TAUTLINE_AS_TEXT
