#pragma once
/// @file
/// All drawings of a setup, written to files.

#include <filesystem>
#include <stdexcept>
#include <vector>

#include <file.hpp>

#include "subject.hpp"

namespace drawing {

/// Kinds of files.
enum class file_kind { pdf, svg, png };

/// Those that can be made: SVG always, PDF and PNG where there is cairo.
[[nodiscard]] std::vector<file_kind> kinds_at_hand();

/// What to write.
struct options {
    heading head{};
    std::vector<file_kind> kinds = kinds_at_hand();
    double png_dots_per_inch = 150;
};

/// The files of a folder after drawing.
struct drawn_folder {
    std::vector<std::filesystem::path> written{};  ///< in the order they were drawn
    std::vector<std::filesystem::path> removed{};  ///< earlier drawings that were not drawn again
    std::vector<std::filesystem::path> not_ours{}; ///< named like drawings, but not this program's: they stay
};

/// A file with the name of a drawing was not drawn by this program.
class not_a_drawing : public std::runtime_error {
public:
    explicit not_a_drawing(const std::filesystem::path& file);
};

/// Writes side_view, buzz_map and templates into a folder, and makes the folder if its parent exists. A PDF holds all pages
/// of a drawing. SVG and PNG have one file for each page, numbered if there are several. Earlier drawings are removed, so
/// that no page of another job stays among them. Files that this program did not draw stay.
///
/// All drawings are complete before anything in the folder changes.
/// @param planned the planned state; null to draw the found one alone
/// @throws outside::cannot_write, cannot_draw, not_a_drawing; tautline::invalid_input for a state that was not solved
drawn_folder write_all(const std::filesystem::path& folder, const subject& found, const subject* planned,
                       const options& how);

} // namespace drawing
