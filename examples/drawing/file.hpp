#pragma once
/// @file
/// Files that are whole or not there.

#include <filesystem>
#include <stdexcept>
#include <string_view>
#include <system_error>

namespace drawing {

/// A file that could not be written: which one, and what the system said.
class cannot_write : public std::runtime_error {
public:
    cannot_write(std::filesystem::path file, std::error_code why);

    [[nodiscard]] const std::filesystem::path& file() const { return file_; }
    [[nodiscard]] const std::error_code& why() const { return why_; }

private:
    std::filesystem::path file_;
    std::error_code why_;
};

/// All bytes into an open file, down to the disk.
/// @param name what an error calls the file
/// @throws cannot_write
void write_bytes(int descriptor, std::string_view bytes, const std::filesystem::path& name);

/// Writes a file beside its place and moves it there when it is whole; one that was there before stays until then, and
/// stays where anything fails. Nothing is left beside it.
/// @throws cannot_write
void write_file(const std::filesystem::path& file, std::string_view bytes);

} // namespace drawing
