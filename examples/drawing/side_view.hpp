#pragma once
/// @file
/// A setup from the side: neck, strings and supports under load, heights stretched, as found against as planned.

#include "subject.hpp"

namespace drawing {

/// One page: the whole instrument from posts to anchor, and the frets under the outermost strings. Where nothing is
/// planned, what was found is drawn alone.
[[nodiscard]] sheets side_view(const heading& h, const subject& found, const subject* planned);

} // namespace drawing
