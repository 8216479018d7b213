#pragma once
/// @file
/// Notes of a drawing: where everything lies, before a file is made.

#include <string>
#include <vector>

#include "canvas.hpp"

namespace drawing {

/// A line of letters and the box it takes.
struct noted_text {
    std::string letters{};
    box around{};
    box window{};        ///< what is seen of the page where it is drawn
    bool backed = false; ///< on a white ground
    std::size_t order = 0;
};
/// The corners of a stroke or of a filled shape. A circle is noted by points of its edge.
struct noted_shape {
    std::vector<place> points{};
    box window{};
    pen with{};
    bool closed = false, filled = false;
    std::size_t order = 0; ///< number of things drawn before it
};
/// Everything drawn on a page, in millimetres of the page.
struct noted_marks {
    std::vector<noted_text> texts{};
    std::vector<noted_shape> shapes{};
};

/// Notes of what a sheet draws.
[[nodiscard]] noted_marks note(const box& sheet, const std::function<void(canvas&)>& draw);

/// Whether two boxes overlap by more than `by` mm in both directions.
[[nodiscard]] constexpr bool overlap_by(const box& a, const box& b, double by = 0) {
    return a.left + by < b.right() && b.left + by < a.right() && a.top + by < b.bottom() && b.top + by < a.bottom();
}
/// Whether one box lies in the other.
[[nodiscard]] constexpr bool lies_in(const box& in, const box& out, double spare = 1e-6) {
    return in.left >= out.left - spare && in.right() <= out.right() + spare && in.top >= out.top - spare &&
           in.bottom() <= out.bottom() + spare;
}

} // namespace drawing
