#pragma once
/// @file
/// Where a file is to be written, and the names that files have until they stand there. For the files of this folder.

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "file_beside.hpp"

namespace outside {

/// Where a file is to be written: past the links, what stands there.
struct destination {
    std::filesystem::path place{};
    std::optional<file_owner> before{}; ///< none: nothing stands there
    bool through = false;               ///< not a regular file: it is written through
};
/// @throws cannot_write for a folder, and for what cannot be looked at
destination destination_of(const std::filesystem::path& file);

/// All bytes into what stands there and is no regular file.
/// @throws cannot_write
void write_through(const std::filesystem::path& file, std::string_view bytes);

/// A name beside a place: that of the place as far as there is room, a mark, the process and a number.
std::filesystem::path name_beside(const std::filesystem::path& place, unsigned long process, int attempt);
/// Whether a file's name is such a one.
bool is_name_beside(std::string_view name);

/// The folder of a place.
std::filesystem::path folder_of(const std::filesystem::path& place);

} // namespace outside
