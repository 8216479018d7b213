#pragma once
/// @file
/// Lays out things in true size on pages: several on a page, or one on several pages that are glued together.

#include "subject.hpp"

namespace drawing {

/// A thing of known size, drawn with its upper left corner at (0, 0).
struct true_size {
    std::string name{};
    double width = 0; ///< mm
    double height = 0;
    std::function<void(canvas&)> draw{};
    std::string words{};   ///< its description, if that is not drawn
    bool is_table = false; ///< of the thing before it, and never on a page without it
};

/// Least overlap of neighbouring pages, mm.
inline constexpr double overlap = 16;

/// The room for things on a page of templates.
[[nodiscard]] box template_room(paper p);

/// Pages with everything on them. Each page has a bar along and an upright one, both 100 mm long, to check the printer's
/// scale. A thing too large for a page takes several, with crosses to lay on one another. Each of its labels is whole on at
/// least one page, and no cross lies on a label. A table that begins a page comes with the thing it belongs to.
[[nodiscard]] std::vector<page> true_size_pages(const heading& h, const std::string& below_title,
                                                const std::vector<true_size>& things);

} // namespace drawing
