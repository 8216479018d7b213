#pragma once
/// @file
/// Text to standard output, whole: a program that could not write it says so and does not exit as if it were done.

#include <iostream>
#include <string>

namespace safe_text {

/// Writes a text to standard output; the exit code: 0 done, 1 it could not be written, which is said on standard error.
inline int printed(const std::string& text, const char* program) {
    std::cout << text << std::flush;
    if (std::cout) { return 0; }
    std::cerr << program << ": standard output cannot be written\n";
    return 1;
}

} // namespace safe_text
