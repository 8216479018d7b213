#include <cstdlib>

#include <unistd.h>

#include "program.hpp"

namespace outside {

program::program(int count, const char* const* arguments) : arguments_(arguments, arguments + count) {}
program::~program() = default;
bool program::shows_bold() { return ::isatty(STDOUT_FILENO) != 0; }

std::filesystem::path path_of(std::string_view text) { return text; }
std::string text_of(const std::filesystem::path& path) { return path.string(); }

} // namespace outside
