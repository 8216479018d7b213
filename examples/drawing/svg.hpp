#pragma once
/// @file
/// Drawings as SVG (W3C, Scalable Vector Graphics 1.1, 2nd edition): files of their own, and parts of a page.

#include <string>

#include "canvas.hpp"

namespace drawing {

/// Where the shades of grey come from.
enum class inks {
    fixed,  ///< as on paper
    of_page ///< classes that a page's style gives colours: `svg_classes`
};

/// A page's style says with these what the inks are: strokes s0 to s3 and fills f0 to f3, black, grey, pale, white.
[[nodiscard]] std::string svg_classes(const std::string& black, const std::string& grey, const std::string& pale,
                                      const std::string& white);

/// A drawing as an `<svg>` element for a page, one user unit a millimetre. It says its width on paper as `--wide`, by which
/// the page's style gives it room.
/// @param told what it shows, in words, for who does not see it; may come from anywhere
[[nodiscard]] std::string svg_element(const page& p, const std::string& told);

/// A text between tags or quotes of XML or HTML: `shown` as every output shows it, `& < > " '` written out.
[[nodiscard]] std::string markup_text(std::string_view text, std::size_t most = 4096);

} // namespace drawing
