#pragma once
/// @file
/// Position markers: which frets get dots, and where the dots lie on the face and on the side.

#include <algorithm>
#include <cmath>

#include "board.hpp"

namespace tautline {

/// Dots before one fret.
template <class R = double>
struct basic_marker {
    int fret = 0;                    ///< the fret behind the dots
    int dots = 1;                    ///< number of dots; `y` and `side_x` have as many entries
    length<R> x{};                   ///< midway between this fret and the one before it
    std::vector<length<R>> y{};      ///< of each dot on the face
    std::vector<length<R>> side_x{}; ///< of each dot on the board's bass side
};
using marker = basic_marker<double>;

/// A fret that gets dots, counted as the board's frets are.
struct dotted_fret {
    int fret = not_counted; ///< the fret behind the dots, 1 to the last
    int dots = 1;           ///< 1 to 4

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("fret", between(1, 240), self.fret...);
        visit("dots", between(1, 4).fair_default("a single one"), self.dots...);
    }
};

/// How the dots are laid out. All of it is common practice, no source.
template <class R = double>
struct basic_marker_layout {
    using real = R;
    /// Frets with single dots within an octave of 12 steps. Other scales get the frets nearest to these pitches.
    std::vector<int> singles = {3, 5, 7, 9};
    /// Frets of the board that get none, whatever is usual there.
    std::vector<int> without{};
    /// Double dots lie this share of the half width off the centre line. So do the outermost of three or four dots.
    R double_share = number<R>(0.5L);
    /// Double side dots lie this share of the fret space to either side of its middle. So do the outermost of three or
    /// four.
    R side_share = number<R>(1.0L / 6);
    /// Frets of the board that get dots of their own, in place of what is usual there.
    std::vector<dotted_fret> at{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("singles", between(1, 11), self.singles...);
        visit("without", between(1, 240), self.without...);
        visit("double_share", between(0, 1).fair_default("common practice"), self.double_share...);
        visit("side_share", between(0, 0.5).fair_default("common practice"), self.side_share...);
        visit("at", self.at...);
    }
    template <class Report>
    void rules(Report&& report) const {
        for (std::size_t i = 0; i < at.size(); ++i) {
            const auto same = [&](const dotted_fret& other) { return other.fret == at[i].fret; };
            if (std::count_if(at.begin(), at.begin() + static_cast<std::ptrdiff_t>(i), same) > 0) {
                report(messages::path_of("at", i, "fret"), "must be a fret that is not listed yet");
            } else if (std::find(without.begin(), without.end(), at[i].fret) != without.end()) {
                report(messages::path_of("at", i, "fret"), "must not be among those without dots");
            }
        }
    }
    /// Rules that need the board: the path and the rule of each fret that is not on it.
    template <class Report>
    void report_frets(int last_fret, Report&& report) const {
        const char* off_board = "must be one of the board's frets, 1 to the last";
        for (std::size_t i = 0; i < at.size(); ++i) {
            if (at[i].fret > last_fret) { report(messages::path_of("at", i, "fret"), off_board); }
        }
        for (std::size_t i = 0; i < without.size(); ++i) {
            if (without[i] > last_fret) { report(messages::path_of("without", i), off_board); }
        }
    }
};
using marker_layout = basic_marker_layout<double>;

namespace kernel {

/// The dots before one fret. Several dots are spread evenly across the face and along the side.
template <class R>
[[nodiscard]] basic_marker<R> marker_before(const basic_board<R>& b, const dotted_fret& at,
                                            const basic_marker_layout<R>& layout) {
    const length<R> before = kernel::fret_position(b.scale, at.fret - 1), behind = kernel::fret_position(b.scale, at.fret);
    const length<R> middle = (before + behind) / 2;
    basic_marker<R> m{.fret = at.fret, .dots = at.dots, .x = middle};
    const length<R> off = kernel::half_width_at(b, middle) * layout.double_share;
    const length<R> along = (behind - before) * layout.side_share;
    for (int i = 0; i < at.dots; ++i) {
        // -1 to 1; a single one stands in the middle.
        const R place = number<R>(at.dots > 1 ? 2.0L * i / (at.dots - 1) - 1 : 0);
        m.y.push_back(off * place);
        m.side_x.push_back(middle + along * place);
    }
    return m;
}

} // namespace kernel

/// Dots of a board: singles and, at each octave, a double, but for frets that `layout` names: those of `at` get dots of
/// their own and those of `without` none. `board` gives widths and scale.
/// @throws invalid_input for a board or a layout that is not valid, for fanned frets, and for a fret that is not there
template <class R = double>
[[nodiscard]] std::vector<basic_marker<R>> markers(const basic_board<R>& b,
                                                   const std::type_identity_t<basic_marker_layout<R>>& layout = {}) {
    require_valid(b, "board");
    require_valid(layout, "marker_layout");
    kernel::require_one_scale(b.scale, "board.scale.fan");
    layout.report_frets(b.scale.frets, [](const std::string& path, const char* off_board) {
        require_that(false, messages::joined({"marker_layout.", path}), off_board);
    });
    std::vector<basic_marker<R>> all_dots;
    for (int n = 1; n <= b.scale.frets; ++n) {
        const int in_octave = kernel::fret_step(b.scale, n) % b.scale.steps;
        int dots = in_octave == 0 ? 2 : 0;
        for (const int single : layout.singles) {
            const auto nearest = static_cast<int>(std::lround(single * b.scale.steps / 12.0));
            if (dots == 0 && nearest == in_octave) { dots = 1; }
        }
        for (const dotted_fret& chosen : layout.at) {
            if (chosen.fret == n) { dots = chosen.dots; }
        }
        if (std::find(layout.without.begin(), layout.without.end(), n) != layout.without.end()) { dots = 0; }
        if (dots > 0) { all_dots.push_back(kernel::marker_before<R>(b, {n, dots}, layout)); }
    }
    return all_dots;
}

/// Dots before the frets of a list, in the order of the list. A fret's number counts the frets on the board, however
/// the octave is divided. The shares of `layout` are used; its lists of frets are not.
template <class R = double>
[[nodiscard]] std::vector<basic_marker<R>> markers_at(const basic_board<R>& b, const std::vector<dotted_fret>& dotted,
                                                      const std::type_identity_t<basic_marker_layout<R>>& layout = {}) {
    require_valid(b, "board");
    require_valid(layout, "marker_layout");
    kernel::require_one_scale(b.scale, "board.scale.fan");
    std::vector<basic_marker<R>> all_dots;
    for (std::size_t i = 0; i < dotted.size(); ++i) {
        require_that(1 <= dotted[i].fret && dotted[i].fret <= b.scale.frets, messages::path_of("dotted", i, "fret"),
                     "must be one of the board's frets, 1 to the last", dotted[i].fret);
        require_that(1 <= dotted[i].dots && dotted[i].dots <= 4, messages::path_of("dotted", i, "dots"), "must be 1 to 4",
                     dotted[i].dots);
        all_dots.push_back(kernel::marker_before<R>(b, dotted[i], layout));
    }
    return all_dots;
}

} // namespace tautline
