#pragma once
/// @file
/// All drawings of a setup, written to files.

#include <filesystem>
#include <vector>

#include "file.hpp"
#include "subject.hpp"

namespace drawing {

/// Kinds of files.
enum class file_kind { pdf, svg, png };

/// What to write.
struct options {
    heading head{};
    std::vector<file_kind> kinds = {file_kind::pdf, file_kind::svg, file_kind::png};
    double png_dots_per_inch = 150;
};

/// Writes side_view, buzz_map and templates into a folder, which is made if its parent is there. A PDF holds all pages of a
/// drawing; SVG and PNG are a file a page, numbered where there are several. Each file is whole when it appears.
/// @param planned what is to become of it; null: as found only
/// @return the files, in the order they were written
/// @throws cannot_write, cannot_draw, tautline::invalid_input for what was not solved
std::vector<std::filesystem::path> write_all(const std::filesystem::path& folder, const subject& found,
                                             const subject* planned, const options& how);

} // namespace drawing
