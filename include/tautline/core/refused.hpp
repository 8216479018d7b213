#pragma once
/// @file
/// How a call is refused in words, for this library's own headers.

/// Behind the declaration of an overload that catches a mistake: to call it is an error that tells the sentence, and
/// whoever asks whether it can be called (`requires`) hears that it cannot. clang says the sentence itself, g++ shows the
/// line.
#ifdef __clang__
#define TAUTLINE_REFUSED(SENTENCE) __attribute__((unavailable(SENTENCE)))
#else
#define TAUTLINE_REFUSED(SENTENCE) = delete
#endif
