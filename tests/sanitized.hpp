#pragma once
/// @file
/// Whether the program was built with clang's or g++'s address sanitizer.

/// Sanitizers look for what is wrong in memory, not for wrong numbers, and slow a program some thirty times. A test that
/// does the same over and over for its numbers' sake, such as one of many random draws, is left to builds without them,
/// where another test calls the same functions: `TEST_CASE("..." * doctest::skip(sanitized))`.
#if defined(__has_feature)
#if __has_feature(address_sanitizer)
inline constexpr bool sanitized = true;
#else
inline constexpr bool sanitized = false;
#endif
#elif defined(__SANITIZE_ADDRESS__)
inline constexpr bool sanitized = true;
#else
inline constexpr bool sanitized = false;
#endif
