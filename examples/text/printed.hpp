#pragma once
/// @file
/// Complete text to standard output. A program that cannot write it says so and does not exit with success.

#include <iostream>
#include <string>

namespace safe_text {

/// Writes a text to standard output. Returns the exit code: 0 when done; 1 when it could not be written, with a sentence on
/// standard error.
inline int printed(const std::string& text, const char* program) {
    std::cout << text << std::flush;
    if (std::cout) { return 0; }
    std::cerr << program << ": standard output cannot be written\n";
    return 1;
}

} // namespace safe_text
