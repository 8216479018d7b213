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

double draw_table(canvas& c, place top_left, double width, double column,
                  const std::vector<std::vector<std::string>>& rows) {
    constexpr double row_height = 4.2;
    const lettering words{.size = 2.5};
    double y = top_left.y + 3;
    for (const auto& row : rows) {
        const double numbers = static_cast<double>(row.empty() ? 0 : row.size() - 1) * column;
        for (std::size_t i = 0; i < row.size(); ++i) {
            lettering l = words;
            l.side = i == 0 ? align::left : align::right;
            l.bold = &row == &rows.front() && i > 0;
            const double x = i == 0 ? top_left.x : top_left.x + width - static_cast<double>(row.size() - 1 - i) * column;
            c.text({x, y}, c.fitted(row[i], i == 0 ? width - numbers : column - 1, l), l);
        }
        y += row_height;
    }
    return y;
}

} // namespace drawing
