#pragma once
/// @file
/// Position markers: which frets get dots, and where the dots lie on the face and on the side.

#include <cmath>

#include "board.hpp"

namespace tautline {

/// Dots before one fret.
template <class R = double>
struct basic_marker {
    int fret = 0;                    ///< the fret behind the dots
    int dots = 1;                    ///< one or two
    length<R> x{};                   ///< midway between this fret and the one before it
    std::vector<length<R>> y{};      ///< of each dot on the face
    std::vector<length<R>> side_x{}; ///< of each dot on the board's bass side
};
using marker = basic_marker<double>;

/// How the dots are laid out. All of it is common practice, no source.
template <class R = double>
struct basic_marker_layout {
    using real = R;
    /// Singles of a 12-step scale within an octave; other scales get the frets nearest to these pitches.
    std::vector<int> singles = {3, 5, 7, 9};
    /// Double dots lie this share of the half width off the centre.
    R double_share = number<R>(0.5L);
    /// Side doubles lie this share of the fret space to either side of its middle.
    R side_share = number<R>(1.0L / 6);

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("singles", between(1, 11), self.singles...);
        visit("double_share", between(0, 1).fair_default("common practice"), self.double_share...);
        visit("side_share", between(0, 0.5).fair_default("common practice"), self.side_share...);
    }
};
using marker_layout = basic_marker_layout<double>;

/// Dots of a board: singles and, at each octave, a double. `board` gives widths and scale.
template <class R>
[[nodiscard]] std::vector<basic_marker<R>> markers(const basic_board<R>& b,
                                                   const std::type_identity_t<basic_marker_layout<R>>& layout = {}) {
    require_valid(b, "board");
    require_valid(layout, "marker_layout");
    std::vector<basic_marker<R>> all_dots;
    for (int n = 1; n <= b.scale.frets; ++n) {
        const int in_octave = kernel::fret_step(b.scale, n) % b.scale.steps;
        int dots = in_octave == 0 ? 2 : 0;
        for (const int single : layout.singles) {
            const auto nearest = static_cast<int>(std::lround(single * b.scale.steps / 12.0));
            if (dots == 0 && nearest == in_octave) { dots = 1; }
        }
        if (dots == 0) { continue; }
        const length<R> before = kernel::fret_position(b.scale, n - 1), at = kernel::fret_position(b.scale, n);
        const length<R> middle = (before + at) / 2;
        basic_marker<R> m{.fret = n, .dots = dots, .x = middle};
        if (dots == 1) {
            m.y = {length<R>()};
            m.side_x = {middle};
        } else {
            const length<R> off = kernel::half_width_at(b, middle) * layout.double_share;
            const length<R> along = (at - before) * layout.side_share;
            m.y = {-off, off};
            m.side_x = {middle - along, middle + along};
        }
        all_dots.push_back(m);
    }
    return all_dots;
}

} // namespace tautline
