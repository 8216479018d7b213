#pragma once
/// @file
/// Files that are whole or not there.

#include <filesystem>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <system_error>

#include "file_beside.hpp"

namespace outside {

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

/// What to do where a file stands already.
enum class standing { is_replaced, is_kept };

/// A file that is written, but not yet where it belongs.
///
/// A regular file is written beside its place and moved there when it is whole. One that stands there keeps its mode, and
/// its owner where that is allowed (on Windows it gets what its folder hands down, as every new file there); a symbolic
/// link stays and what it points to is written. What is no regular file (a device, a pipe, a descriptor that is open
/// already) is written through when the file is put.
class waiting_file {
public:
    /// @throws cannot_write; nothing is left of it then
    waiting_file(const std::filesystem::path& file, std::string_view bytes, standing s = standing::is_replaced);
    /// Where it will stand, past the links; null for what is written through.
    [[nodiscard]] const std::filesystem::path* place() const { return made_ ? &made_->place() : nullptr; }
    /// Adds bytes to its end.
    /// @throws cannot_write
    void add(std::string_view bytes);
    /// Puts it where it belongs.
    /// @throws cannot_write; `file_exists` where what stands is kept
    void put();

private:
    std::filesystem::path file_;
    standing standing_;
    std::string through_{}; ///< what is written through
    std::optional<file_beside> made_{};
};

/// Puts a file where it belongs; what an earlier, killed writing left beside it goes away.
/// @throws cannot_write
void put_in_place(waiting_file& made);

/// Writes a file as `waiting_file` does, at once; what an earlier, killed writing left beside it goes away.
/// @throws cannot_write
void write_file(const std::filesystem::path& file, std::string_view bytes, standing s = standing::is_replaced);

} // namespace outside
