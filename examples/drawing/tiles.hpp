#pragma once
/// @file
/// Things drawn in true size, laid out on pages: several to a page, or one over several pages that are glued together.

#include "subject.hpp"

namespace drawing {

/// Something of a known size on paper, drawn with its upper left corner at (0, 0).
struct true_size {
    std::string name{};
    double width = 0; ///< mm
    double height = 0;
    std::function<void(canvas&)> draw{};
    std::string words{};   ///< what is said of it, where that is not drawn
    bool is_table = false; ///< of what stands before it, and not without it on a page
};

/// How much neighbouring pages show of the same at least, mm.
inline constexpr double overlap = 16;

/// Where things are drawn on a page of templates.
[[nodiscard]] box template_room(paper p);

/// Pages with everything on them; each page carries a bar along and one upright, of 100 mm each, that show whether the
/// printer kept the size. What does not fit a page goes over several with crosses to lay on one another; each of its labels
/// stands whole on one of them at least, and no cross lies on one. What a table belongs to is drawn again where the table
/// begins a page.
[[nodiscard]] std::vector<page> true_size_pages(const heading& h, const std::string& below_title,
                                                const std::vector<true_size>& things);

} // namespace drawing
