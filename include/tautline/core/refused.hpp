#pragma once
/// @file
/// How a call is refused in words, for this library's own headers.

/// Stands behind the declaration of an overload that catches a mistake. A call of it is an error with the sentence in
/// the message, and `requires` tells that it cannot be called. clang prints the sentence itself, g++ shows the line.
#ifdef __clang__
#define TAUTLINE_REFUSED(SENTENCE) __attribute__((unavailable(SENTENCE)))
#else
#define TAUTLINE_REFUSED(SENTENCE) = delete
#endif
