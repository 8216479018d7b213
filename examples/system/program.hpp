#pragma once
/// @file
/// What a program is given and where it prints, the same on every system: text is UTF-8, and lines end as they are written.

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace outside {

/// The program's own settings of the system, for as long as it runs; made first in `main`. On Windows the terminal shows
/// UTF-8 and gets its own code page back at the end, and standard output changes no line end: what is printed or sent into
/// a file is the same bytes as on any other system.
class program {
public:
    /// @param count, arguments what `main` was given
    program(int count, const char* const* arguments);
    program(const program&) = delete;
    program& operator=(const program&) = delete;
    ~program();

    /// The arguments as UTF-8, the program's name first. (On Windows those of `main` are in a code page of the machine's,
    /// in which many names cannot be written.)
    [[nodiscard]] const std::vector<std::string>& arguments() const { return arguments_; }
    /// Whether standard output is a terminal that shows bold letters.
    [[nodiscard]] static bool shows_bold();

private:
    std::vector<std::string> arguments_;
    [[maybe_unused]] unsigned code_page_ = 0; ///< of the terminal before, on Windows
};

/// The path that a text in UTF-8 names. Elsewhere than on Windows names are bytes, and stay as they are.
[[nodiscard]] std::filesystem::path path_of(std::string_view text);
/// The other way about.
[[nodiscard]] std::string text_of(const std::filesystem::path& path);

} // namespace outside
