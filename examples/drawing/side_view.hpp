#pragma once
/// @file
/// A setup from the side: neck, strings and supports under load, as found and as planned. Heights are stretched.

#include "subject.hpp"

namespace drawing {

/// One page: the whole instrument from posts to anchor, and the frets under the outermost strings. Where nothing is
/// planned, what was found is drawn alone.
[[nodiscard]] sheets side_view(const heading& h, const subject& found, const subject* planned);

/// A part of the side view for a page with words beside it: its title, its lines, and its numbers in rows after a row of
/// heads.
struct side_panel {
    std::string heading{};
    page drawn{};
    std::vector<std::vector<std::string>> numbers{};
};
/// The whole instrument, the bass string, and the treble string where there is another; each `width` mm wide.
[[nodiscard]] std::vector<side_panel> side_panels(const subject& found, const subject* planned, measures m, double width);

} // namespace drawing
