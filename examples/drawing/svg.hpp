#pragma once
/// @file
/// Drawings as SVG (W3C, Scalable Vector Graphics 1.1, 2nd edition): files of their own, and parts of a page.

#include <string>

#include "canvas.hpp"

namespace drawing {

/// The source of the shades of grey.
enum class inks {
    fixed,  ///< those of paper
    of_page ///< classes that a page's style gives colours: `svg_classes`
};

/// Classes by which a page's style sets the inks: strokes s0 to s3 and fills f0 to f3, for black, grey, pale and white.
[[nodiscard]] std::string svg_classes(const std::string& black, const std::string& grey, const std::string& pale,
                                      const std::string& white);

/// A drawing as an `<svg>` element of a page; one user unit is a millimetre. `--wide` holds its width on paper, and the
/// page's style gives it room by that.
/// @param told a description for people who cannot see it; may come from outside
[[nodiscard]] std::string svg_element(const page& p, const std::string& told);

/// A text for XML or HTML, between tags or quotes. It is `shown` as in every output, and `& < > " '` are escaped.
[[nodiscard]] std::string markup_text(std::string_view text, std::size_t most = 4096);

} // namespace drawing
