#pragma once
/// @file
/// The mark by which this program knows its own drawings again.

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>

namespace drawing {

/// What stands in every drawing, unseen: in a comment of PDF and SVG, in a text of PNG.
inline constexpr std::string_view own_mark = "Drawn by Tautline; goes away when its folder is drawn into again";

/// Whether a file bears a name that drawings are written under: side_view, buzz_map or templates, perhaps a page's number,
/// and .pdf, .svg or .png.
[[nodiscard]] bool is_drawing_name(std::string_view name);

/// The bytes of a PDF, SVG or PNG file with the mark in them.
[[nodiscard]] std::string marked_pdf(std::string bytes);
[[nodiscard]] std::string marked_svg(std::string bytes);
[[nodiscard]] std::string marked_png(std::string bytes);

/// Whether a file is a regular one, perhaps through links, and bears the mark where its kind has it.
[[nodiscard]] bool is_marked(const std::filesystem::path& file);

/// The checksum of PNG's chunks, CRC-32 (W3C, Portable Network Graphics, 2nd edition, annex D).
[[nodiscard]] std::uint32_t crc32(std::string_view bytes);

} // namespace drawing
