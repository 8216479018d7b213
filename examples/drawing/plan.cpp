#include "plan.hpp"

#include <tautline/board/markers.hpp>

namespace drawing {

using namespace tautline::units;

namespace {

double half_width(const tl::board& b, double x) { return tl::half_width_at(b, x * mm) / mm; }

/// A line through (x, 0), carried to both edges of the board. `lean` is dx/dy.
cross_line to_edges(const tl::board& b, double x, double lean) {
    // Half the width is linear in x: w0 + t x. On an edge |y| equals the half width.
    const double w0 = half_width(b, 0), t = half_width(b, 1) - w0;
    const double bass = -(w0 + t * x) / (1 + t * lean), treble = (w0 + t * x) / (1 - t * lean);
    return {{x + lean * bass, bass}, {x + lean * treble, treble}};
}

} // namespace

std::optional<tl::fan> fan_shown(const subject& s) { return s.fan ? s.fan : tl::fan_of_board(s.instrument); }

std::vector<cross_line> fret_lines(const subject& s) {
    std::vector<cross_line> lines;
    if (const auto fan = fan_shown(s)) {
        for (int n = 0; n <= fan->frets; ++n) {
            const auto line = tl::fret_line(*fan, n);
            lines.push_back(to_edges(s.instrument.board, tl::x_at(line, 0 * mm) / mm, tl::lean_of(line)));
        }
        return lines;
    }
    for (const auto& l : tl::lines_on_board(s.instrument)) {
        lines.push_back({{l.bass.x / mm, l.bass.y / mm}, {l.treble.x / mm, l.treble.y / mm}});
    }
    return lines;
}

std::vector<place> board_outline(const subject& s) {
    const tl::board& b = s.instrument.board;
    const cross_line nut = fret_lines(s).front();
    const double end = b.board_length / mm, half = half_width(b, end);
    return {nut.bass, {end, -half}, {end, half}, nut.treble};
}

dots marker_places(const subject& s) {
    const tl::board& b = s.instrument.board;
    dots out;
    const auto fan = fan_shown(s);
    if (!fan && !b.scale.fan) {
        for (const auto& m : tl::markers(b, s.dots)) {
            for (const auto& y : m.y) { out.face.push_back({m.x / mm, y / mm}); }
            for (const auto& x : m.side_x) { out.side.push_back({x / mm, -half_width(b, x / mm)}); }
        }
        return out;
    }
    // The scale tells which frets have dots. On a fan the dots lie between the slanted frets.
    tl::board counted = b;
    counted.scale.measured_places.clear();
    counted.scale.fan.reset();
    counted.scale.scale_length =
        fan ? (fan->bass_scale + fan->treble_scale) / 2.0 : tl::saddle_line_at(s.instrument, 0 * mm);
    counted.scale.steps = fan ? fan->steps : b.scale.steps;
    counted.scale.frets = fan ? fan->frets : b.scale.frets;
    counted.board_length = std::max<tl::length<double>>(b.board_length, counted.scale.scale_length);
    const auto lines = fret_lines(s);
    for (const auto& m : tl::markers(counted, s.dots)) {
        const auto n = static_cast<std::size_t>(m.fret);
        const auto middle_at = [&](double y) {
            const auto x_of = [y](const cross_line& l) {
                return l.bass.x + (y - l.bass.y) * (l.treble.x - l.bass.x) / (l.treble.y - l.bass.y);
            };
            return place{(x_of(lines[n - 1]) + x_of(lines[n])) / 2, y};
        };
        for (const auto& y : m.y) { out.face.push_back(middle_at(y / mm)); }
        const place before = lines[n - 1].bass, at = lines[n].bass;
        for (std::size_t k = 0; k < m.side_x.size(); ++k) {
            // Several lie evenly to either side of the middle, the outermost by the layout's share of the space.
            const double way =
                m.side_x.size() == 1 ? 0 : 2 * static_cast<double>(k) / static_cast<double>(m.side_x.size() - 1) - 1;
            const double t = 0.5 + way * s.dots.side_share;
            out.side.push_back({before.x + (at.x - before.x) * t, before.y + (at.y - before.y) * t});
        }
    }
    return out;
}

} // namespace drawing
