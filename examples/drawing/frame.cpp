#include "frame.hpp"

namespace drawing {

box draw_frame(canvas& c, const heading& h, const box& sheet, const std::string& below_title) {
    const double left = margin, right = sheet.width - margin, foot = sheet.height - margin;
    const lettering large{.size = 4.4, .bold = true}, small{.size = 2.5};
    c.text({left, margin + 4.4}, c.fitted(h.title, right - left, large), large);
    c.text({left, margin + 9}, c.fitted(below_title, right - left, lettering{}), {});
    c.text({left, foot}, c.fitted(caution, right - left, small), small);
    return {left, margin + 12, right - left, foot - 4.5 - (margin + 12)};
}

} // namespace drawing
