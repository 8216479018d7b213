#include "states.hpp"

namespace drawing {

using namespace tautline::units;

state_table::state_table(const states& s, measures m) : states_(s), measures_(m) {
    rows_.push_back({"strings at pitch", "as found"});
    if (s.planned) { rows_.front().push_back("planned"); }
}

template <class F>
void state_table::add_row(const std::string& what, F&& text) {
    std::vector<std::string> row{what};
    states_.each([&](const subject& of, const pen&, bool) { row.push_back(text(of)); });
    rows_.push_back(std::move(row));
}

void state_table::add(const std::string& what,
                      const std::function<std::optional<tl::length<double>>(const subject&)>& number,
                      const std::string& path) {
    const auto add_in = [&](const tl::shown_unit& unit) {
        add_row(what + ", " + std::string(unit.name), [&](const subject& of) {
            const auto q = number(of);
            return q ? tl::bench_cell(*q, of.told_as(path), unit) : std::string("-");
        });
    };
    if (measures_ != measures::imperial) { add_in(tl::show::height.metric); }
    if (measures_ != measures::metric) { add_in(tl::show::height.imperial); }
}
void state_table::add(const std::string& what, const std::function<tl::force<double>(const subject&)>& number) {
    const auto add_in = [&](tl::unit_tag<tl::unit::force> unit, const char* name) {
        add_row(what + ", " + name, [&](const subject& of) { return tl::fixed_text(number(of), unit, 1); });
    };
    if (measures_ != measures::imperial) { add_in(N, "N"); }
    if (measures_ != measures::metric) { add_in(lbf, "lbf"); }
}
void state_table::add(const std::string& what, const std::function<tl::angle<double>(const subject&)>& number) {
    add_row(what + ", deg", [&](const subject& of) { return tl::fixed_text(number(of), deg, 1); });
}

void state_table::draw(canvas& c, const box& room) const {
    constexpr double row_height = 4.2, column = 16;
    double y = room.top + 3;
    for (const auto& row : rows_) {
        const double words = room.width - static_cast<double>(row.size() - 1) * column;
        for (std::size_t i = 0; i < row.size(); ++i) {
            const lettering l{.size = 2.5, .side = i == 0 ? align::left : align::right, .bold = &row == &rows_.front()};
            const double x = i == 0 ? room.left : room.right() - static_cast<double>(row.size() - 1 - i) * column;
            const double most = i == 0 ? words : column - 0.5;
            const lettering small = c.smaller(row[i], most, l);
            c.text({x, y}, c.fitted(row[i], most, small), small);
        }
        y += row_height;
    }
}

} // namespace drawing
