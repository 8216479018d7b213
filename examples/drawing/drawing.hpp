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

/// What became of a folder.
struct drawn_folder {
    std::vector<std::filesystem::path> written{};  ///< in the order they were drawn
    std::vector<std::filesystem::path> removed{};  ///< drawn here before, and not drawn again
    std::vector<std::filesystem::path> not_ours{}; ///< named like a drawing, but not known as one: they stay
};

/// Under the name of a drawing stands what this program did not draw.
class not_a_drawing : public std::runtime_error {
public:
    explicit not_a_drawing(const std::filesystem::path& file);
};

/// Writes side_view, buzz_map and templates into a folder, which is made if its parent is there. A PDF holds all pages of a
/// drawing; SVG and PNG are a file a page, numbered where there are several. What was drawn there before goes away, so that
/// no page of an earlier job stays among those of this one; what somebody else put there stays.
///
/// All drawings are whole beside their places before anything in the folder changes.
/// @param planned what is to become of it; null: as found only
/// @throws outside::cannot_write, cannot_draw, not_a_drawing, tautline::invalid_input for what was not solved
drawn_folder write_all(const std::filesystem::path& folder, const subject& found, const subject* planned,
                       const options& how);

} // namespace drawing
