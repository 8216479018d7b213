#pragma once
/// @file
/// Files of a test: a folder that is gone when the test is done, and whole files read.

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <string>

namespace files {

/// The whole of a file; empty when there is none.
inline std::string read_all(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

/// A folder of its own, gone with this.
struct scratch_folder {
    std::filesystem::path path = [] {
        std::random_device any;
        for (int attempt = 0; attempt < 100; ++attempt) {
            const auto name = std::filesystem::temp_directory_path() / ("tautline_test_" + std::to_string(any()));
            std::error_code error;
            if (!std::filesystem::create_directory(name, error)) { continue; }
            std::filesystem::permissions(name, std::filesystem::perms::owner_all, error);
            return name;
        }
        std::abort();
    }();
    scratch_folder() = default;
    scratch_folder(const scratch_folder&) = delete;
    scratch_folder& operator=(const scratch_folder&) = delete;
    ~scratch_folder() {
        std::error_code ignored;
        std::filesystem::remove_all(path, ignored);
    }
    /// A file in it with these bytes; its path.
    [[nodiscard]] std::filesystem::path write(const std::string& name, const std::string& bytes) const {
        std::ofstream(path / name, std::ios::binary) << bytes;
        return path / name;
    }
};

} // namespace files
