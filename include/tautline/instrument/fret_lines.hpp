#pragma once
/// @file
/// The lines of nut, frets and saddle across an instrument's board: square, or fanned out by two scales.
///
/// x = 0 is where the nut's line meets the centre line. Source: plane geometry of board/fan.hpp.

#include "../board/fan.hpp"
#include "../board/spacing.hpp"

namespace tautline {

template <class R>
struct basic_instrument;

namespace kernel {

/// The fan of a board whose strings stand so at nut and saddle.
template <class R>
[[nodiscard]] basic_fan<R> fan_of(const basic_scale<R>& scale, const basic_spacing<R>& at_nut,
                                  const basic_spacing<R>& at_saddle) {
    const auto from = outermost(at_nut), to = outermost(at_saddle);
    basic_fan<R> f;
    f.bass_scale = scale.fan->bass_scale;
    f.treble_scale = scale.fan->treble_scale;
    f.square_fret = scale.fan->square_fret;
    f.steps = scale.steps;
    f.frets = scale.frets;
    f.y_bass_at_nut = from[0];
    f.y_treble_at_nut = from[1];
    f.y_bass_at_saddle = to[0];
    f.y_treble_at_saddle = to[1];
    return f;
}

/// A line across the board: where it crosses the centre line, and how far it goes along x for one of y.
template <class R>
struct leaning_line {
    length<R> x{};
    R lean{};

    [[nodiscard]] constexpr length<R> at(const length<R>& y) const { return x + y * lean; }
    /// Where the line from (x_n, y_n) crosses it that goes `slope` across for one along.
    [[nodiscard]] constexpr basic_plan_point<R> crossed_by(const length<R>& x_n, const length<R>& y_n,
                                                           const R& slope) const {
        const length<R> there = (x + (y_n - x_n * slope) * lean) / R(number<R>(1) - lean * slope);
        return {there, y_n + (there - x_n) * slope};
    }
};

/// Where the lines are. Which way is taken depends on the kind of board alone.
template <class R>
class board_lines {
public:
    explicit board_lines(const basic_instrument<R>& i) : scale_(i.board.scale) {
        if (scale_.fan) { outer_ = kernel::outer_strings(fan_of(scale_, i.nut.spacing, i.saddle.spacing)); }
    }
    [[nodiscard]] bool fanned() const { return scale_.fan.has_value(); }
    /// Of a fret, counted on the scale also where the board has fewer; 0 is the nut.
    [[nodiscard]] leaning_line<R> fret(int n) const {
        if (!fanned()) { return {kernel::fret_position(scale_, n), R{}}; }
        return leaning(kernel::line_at(*outer_, share_left<R>(n, scale_.steps)));
    }
    /// Of the saddle before compensation.
    [[nodiscard]] leaning_line<R> saddle() const {
        if (!fanned()) { return {scale_.scale_length, R{}}; }
        return leaning(kernel::line_at(*outer_, R{}));
    }

private:
    static leaning_line<R> leaning(const basic_fret_line<R>& l) { return {kernel::x_at(l, length<R>()), kernel::lean(l)}; }

    const basic_scale<R>& scale_;
    std::optional<basic_outer_strings<R>> outer_{};
};

/// A fret from edge to edge of the board; 0 is the nut.
template <class R>
[[nodiscard]] basic_fret_line<R> ends_of_fret(const basic_board<R>& b, const board_lines<R>& lines, int n) {
    const auto l = lines.fret(n);
    const length<R> half = b.width_at_end;
    return kernel::ends_inside<R>({.bass = {l.at(-half), -half}, .treble = {l.at(half), half}}, b, length<R>());
}

/// The place of the saddle's line on the centre line: the scale length, but on a fan.
template <class R>
[[nodiscard]] length<R> line_place(const basic_instrument<R>& i) {
    return i.board.scale.fan ? board_lines<R>(i).saddle().x : length<R>(i.board.scale.scale_length);
}
/// The place of a fret on the centre line; 0 is the nut.
template <class R>
[[nodiscard]] length<R> fret_place(const basic_instrument<R>& i, int n) {
    return i.board.scale.fan ? board_lines<R>(i).fret(n).x : kernel::fret_position(i.board.scale, n);
}

/// Whether fret lines keep their order over all of a board's width, from the nut to the last.
template <class R>
[[nodiscard]] bool lines_in_order(const basic_instrument<R>& i, const board_lines<R>& lines) {
    const length<R> half = max<unit::length, R>(i.board.width_at_nut, i.board.width_at_end) * number<R>(0.5L);
    auto before = lines.fret(0);
    for (int n = 1; n <= i.board.scale.frets; ++n) {
        const auto here = lines.fret(n);
        if (!in_all_lanes(is_less(before.at(-half), here.at(-half))) ||
            !in_all_lanes(is_less(before.at(half), here.at(half)))) {
            return false;
        }
        before = here;
    }
    return true;
}

} // namespace kernel

/// The fan of an instrument's board between its own outer strings; nothing where its frets stand square.
template <class R>
[[nodiscard]] std::optional<basic_fan<R>> fan_of_board(const basic_instrument<R>& i) {
    if (!i.board.scale.fan) { return std::nullopt; }
    require_valid(i, "instrument");
    return kernel::fan_of(i.board.scale, i.nut.spacing, i.saddle.spacing);
}

/// Where the line of the saddle before compensation passes `y` off the centre line, along x: the scale length, but on
/// fanned frets. Setbacks are told from there.
/// @param y within 500 mm of the centre line
template <class R>
[[nodiscard]] length<R> saddle_line_at(const basic_instrument<R>& i, param<length<R>> y) {
    require_valid(i, "instrument");
    require("y", y, between(-500 * units::mm, 500 * units::mm));
    return kernel::board_lines<R>(i).saddle().at(y);
}

} // namespace tautline
