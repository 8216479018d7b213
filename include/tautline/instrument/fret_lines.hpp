#pragma once
/// @file
/// The lines of nut, frets and saddle across an instrument's board. They are square, or fanned out: by two scales, or as
/// measured along both edges.
///
/// x = 0 is where the nut's line meets the centre line. Source: plane geometry of board/fan.hpp.

#include "../board/fan.hpp"
#include "../board/spacing.hpp"

namespace tautline {

template <class R>
struct basic_instrument;

namespace kernel {

/// The fan of a board whose strings cross nut and saddle at these spacings.
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

/// A line across the board: where it crosses the centre line, and how far it goes along x for each unit of y.
template <class R>
struct leaning_line {
    length<R> x{};
    R lean{};

    [[nodiscard]] constexpr length<R> at(const length<R>& y) const { return x + y * lean; }
    /// Where this line is crossed by the line from (x_n, y_n) that goes `slope` across for each unit along.
    [[nodiscard]] constexpr basic_plan_point<R> crossed_by(const length<R>& x_n, const length<R>& y_n,
                                                           const R& slope) const {
        const length<R> there = (x + (y_n - x_n * slope) * lean) / R(number<R>(1) - lean * slope);
        return {there, y_n + (there - x_n) * slope};
    }
};

/// The line through two points.
template <class R>
[[nodiscard]] leaning_line<R> leaning_of(const basic_fret_line<R>& l) {
    return {kernel::x_at(l, length<R>()), kernel::lean(l)};
}

/// The nut's line of a board whose frets were measured along its edges. It crosses the centre line at 0, and its ends lie
/// `nut_slant` apart along x.
template <class R>
[[nodiscard]] leaning_line<R> measured_nut(const basic_board<R>& b) {
    const length<R> slant = *b.scale.fan->nut_slant, half = kernel::half_width_at(b, length<R>());
    const R taper = ratio<unit::length, R>((b.width_at_end - b.width_at_nut) / 2, b.board_length);
    // 2 l h/(1 - l^2 t^2) is the slant of a line of lean l, with half the width h and the taper t.
    return {length<R>(), R(ratio<unit::length, R>(slant, half + hypot(half, slant * taper)))};
}
/// Fret n (from 1) of a board measured along its edges.
template <class R>
[[nodiscard]] basic_fret_line<R> measured_fret(const basic_board<R>& b, int n) {
    const auto& fan = *b.scale.fan;
    const auto nut = measured_nut(b);
    const R taper = ratio<unit::length, R>((b.width_at_end - b.width_at_nut) / 2, b.board_length), one = number<R>(1);
    const length<R> half = kernel::half_width_at(b, length<R>());
    const auto on_edge = [&](const std::vector<field<length<R>>>& places, const R& side) {
        const length<R> along = places[static_cast<std::size_t>(n - 1)] / R(sqrt(R(one + taper * taper)));
        const length<R> x = half * side * nut.lean / R(one - taper * nut.lean * side) + along;
        return basic_plan_point<R>{x, kernel::half_width_at(b, x) * side};
    };
    return {.bass = on_edge(fan.bass_places, -one), .treble = on_edge(fan.treble_places, one)};
}
/// The outer strings of a board measured along its edges. The saddle's line lies as far behind the octave fret as the
/// nut's lies before it.
template <class R>
[[nodiscard]] basic_outer_strings<R> measured_outer(const basic_board<R>& b, const basic_spacing<R>& at_nut,
                                                    const basic_spacing<R>& at_saddle) {
    const auto from = outermost(at_nut), to = outermost(at_saddle);
    const auto nut = measured_nut(b);
    const auto octave = leaning_of(measured_fret(b, b.scale.steps));
    const auto string = [&](std::size_t side) {
        const length<R> start = nut.at(from[side]), middle = octave.at((from[side] + to[side]) * number<R>(0.5L));
        return basic_string_path<R>{.y_at_nut = from[side],
                                    .y_at_saddle = to[side],
                                    .x_at_nut = start,
                                    .x_at_saddle = middle * number<R>(2) - start};
    };
    return {.bass = string(0), .treble = string(1)};
}

/// Where the lines are. Only the kind of board decides which of the ways is taken.
template <class R>
class board_lines {
public:
    explicit board_lines(const basic_instrument<R>& i) : board_(i.board), scale_(i.board.scale) {
        if (!scale_.fan) { return; }
        outer_ = scale_.fan->measured() ? measured_outer(board_, i.nut.spacing, i.saddle.spacing)
                                        : kernel::outer_strings(fan_of(scale_, i.nut.spacing, i.saddle.spacing));
    }
    [[nodiscard]] bool fanned() const { return scale_.fan.has_value(); }
    /// The line of fret n; 0 is the nut. Frets beyond the board's last are counted on the scale.
    [[nodiscard]] leaning_line<R> fret(int n) const {
        if (!fanned()) { return {kernel::fret_position(scale_, n), R{}}; }
        if (scale_.fan->measured() && n <= scale_.frets) {
            return n == 0 ? measured_nut(board_) : leaning_of(measured_fret(board_, n));
        }
        return leaning_of(kernel::line_at(*outer_, share_left<R>(n, scale_.steps)));
    }
    /// The outer strings of a fan.
    [[nodiscard]] const basic_outer_strings<R>& outer() const { return *outer_; }
    /// The line of the saddle before compensation.
    [[nodiscard]] leaning_line<R> saddle() const {
        if (!fanned()) { return {scale_.scale_length, R{}}; }
        return leaning_of(kernel::line_at(*outer_, R{}));
    }

private:
    const basic_board<R>& board_;
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

/// Where the saddle's line before compensation crosses the centre line: at the scale length, or on a fan where its own
/// lines put it.
template <class R>
[[nodiscard]] length<R> line_place(const basic_instrument<R>& i) {
    return i.board.scale.fan ? board_lines<R>(i).saddle().x : length<R>(i.board.scale.scale_length);
}
/// The place of a fret on the centre line; 0 is the nut.
template <class R>
[[nodiscard]] length<R> fret_place(const basic_instrument<R>& i, int n) {
    return i.board.scale.fan ? board_lines<R>(i).fret(n).x : kernel::fret_position(i.board.scale, n);
}

/// Whether fret lines keep their order over the whole width of a board, from the nut to the last fret.
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

/// The fan of an instrument's board between its own outer strings. Returns nothing where its frets are square or were
/// measured.
template <class R>
[[nodiscard]] std::optional<basic_fan<R>> fan_of_board(const basic_instrument<R>& i) {
    if (!i.board.scale.fan || i.board.scale.fan->measured()) { return std::nullopt; }
    require_valid(i, "instrument");
    return kernel::fan_of(i.board.scale, i.nut.spacing, i.saddle.spacing);
}

/// The lines of nut and frets across an instrument's board from edge to edge, square or fanned. The nut's line is the
/// first.
template <class R>
[[nodiscard]] std::vector<basic_fret_line<R>> lines_on_board(const basic_instrument<R>& i) {
    require_valid(i, "instrument");
    const kernel::board_lines<R> lines(i);
    std::vector<basic_fret_line<R>> all;
    for (int n = 0; n <= i.board.scale.frets; ++n) { all.push_back(kernel::ends_of_fret(i.board, lines, n)); }
    return all;
}

/// Where the saddle's line before compensation passes `y` off the centre line, along x. Setbacks are told from there. On
/// square frets it is the scale length.
/// @param y within 500 mm of the centre line
template <class R>
[[nodiscard]] length<R> saddle_line_at(const basic_instrument<R>& i, param<length<R>> y) {
    require_valid(i, "instrument");
    require("y", y, between(-500 * units::mm, 500 * units::mm));
    return kernel::board_lines<R>(i).saddle().at(y);
}

} // namespace tautline
