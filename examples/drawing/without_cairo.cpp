// Stands in for cairo.cpp when cairo is missing: functions that need it say so.
#include "canvas.hpp"

namespace drawing {

bool makes_pdf_and_png() { return false; }
std::string pdf_of(std::span<const page>, const std::string&) { throw cannot_draw(no_pdf_or_png); }
std::string png_of(const page&, double) { throw cannot_draw(no_pdf_or_png); }

} // namespace drawing
