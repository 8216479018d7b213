#pragma once
/// @file
/// The mark by which this program recognises its own drawings.

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>

namespace drawing {

/// The invisible mark of every drawing: a comment in PDF and SVG, a text chunk in PNG.
inline constexpr std::string_view own_mark = "Drawn by Tautline; goes away when its folder is drawn into again";

/// Whether a file's name is one that drawings have: side_view, buzz_map or templates, perhaps with a page's number, and
/// .pdf, .svg or .png.
[[nodiscard]] bool is_drawing_name(std::string_view name);

/// The bytes of a PDF, SVG or PNG file, with the mark added.
[[nodiscard]] std::string marked_pdf(std::string bytes);
[[nodiscard]] std::string marked_svg(std::string bytes);
[[nodiscard]] std::string marked_png(std::string bytes);

/// Whether a file is a regular one, perhaps behind links, and has the mark of its kind.
[[nodiscard]] bool is_marked(const std::filesystem::path& file);

/// The checksum of PNG's chunks, CRC-32 (W3C, Portable Network Graphics, 2nd edition, annex D).
[[nodiscard]] std::uint32_t crc32(std::string_view bytes);

} // namespace drawing
