#pragma once
/// @file
/// Widths of letters of a common sans face, so that a line can be set without a font.

#include <cstdint>
#include <string_view>

namespace drawing {

/// The face that the widths are of, and what else stands in where it is missing: each line is told its width as well.
inline constexpr const char* letter_faces = "DejaVu Sans,Verdana,sans-serif";

/// The advance of a character, in sizes of the letters (em). Measured from the `hmtx` and `cmap` tables of DejaVuSans.ttf
/// and DejaVuSans-Bold.ttf, version 2.37, as Debian's fonts-dejavu-core carries them: a free face, and Debian's own choice
/// for "sans-serif", which cairo takes. Latin letters and signs of the trade; any other character counts as one em, one
/// that is set over another as nothing.
[[nodiscard]] double letter_width(std::uint32_t code, bool bold);

/// The advance of a line of valid UTF-8. There is no kerning.
[[nodiscard]] double line_width(std::string_view shown, bool bold);

} // namespace drawing
