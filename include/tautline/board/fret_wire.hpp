#pragma once
/// @file
/// Fret wire, and the frets of a board with the wear on them.

#include <vector>

#include "board.hpp"

namespace tautline {

/// Fret wire as measured with a caliper.
template <class R = double>
struct basic_fret_wire {
    using real = R;
    /// Over the board, unworn.
    needed<length<R>> crown_height;
    needed<length<R>> crown_width; ///< across the crown, along the string
    /// From the underside of the crown down; absent: not measured, as of frets that are in their slots.
    std::optional<field<length<R>>> tang_depth{};
    /// The flat of the tang, without studs; absent: not measured.
    std::optional<field<length<R>>> tang_thickness{};
    /// Over the studs (barbs) of the tang; absent: the tang is smooth.
    std::optional<field<length<R>>> stud_width{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("crown_height", between(0.05 * units::mm, 10 * units::mm), self.crown_height...);
        visit("crown_width", between(0.1 * units::mm, 20 * units::mm), self.crown_width...);
        visit("tang_depth", between(0.05 * units::mm, 10 * units::mm), self.tang_depth...);
        visit("tang_thickness", between(0.05 * units::mm, 5 * units::mm), self.tang_thickness...);
        visit("stud_width", between(0.05 * units::mm, 10 * units::mm), self.stud_width...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (stud_width && tang_thickness && !in_all_lanes(tang_thickness->value() <= stud_width->value())) {
            report("stud_width", "must be at least the thickness of the tang");
        }
        if (tang_thickness && !in_all_lanes(tang_thickness->value() < crown_width.value())) {
            report("tang_thickness", "must be less than the width of the crown");
        }
    }
};
using fret_wire = basic_fret_wire<double>;

/// The frets in a board: one wire, and what has been worn or levelled off each.
template <class R = double>
struct basic_frets {
    using real = R;
    basic_fret_wire<R> wire; ///< the wire in the slots
    /// Lost from the crown of each fret, first fret first; frets beyond the list are unworn.
    std::vector<field<length<R>>> wear{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("wire", self.wire...);
        visit("wear", between(0 * units::mm, 10 * units::mm), self.wear...);
    }
    template <class Report>
    void rules(Report&& report) const {
        for (std::size_t i = 0; i < wear.size(); ++i) {
            if (!in_all_lanes(is_less<unit::length, R>(wear[i], wire.crown_height))) {
                report(messages::path_of("wear", i), "must be less than the height of the crown");
            }
        }
    }
};
using frets = basic_frets<double>;

namespace kernel {

/// n >= 1; fret 0 is the zero fret, taken as unworn.
template <class R>
[[nodiscard]] constexpr length<R> crown_left(const basic_frets<R>& f, int n) {
    const auto i = static_cast<std::size_t>(n - 1);
    if (n < 1 || i >= f.wear.size()) { return f.wire.crown_height; }
    return f.wire.crown_height - f.wear[i];
}

template <class R>
[[nodiscard]] constexpr length<R> crest_height(const basic_board<R>& b, const basic_frets<R>& f, int n,
                                               const length<R>& y) {
    return kernel::surface_height(b.surface, kernel::fret_position(b.scale, n), y) + kernel::crown_left(f, n);
}

} // namespace kernel

/// What is left of the crown of fret `n` (0: a zero fret).
template <class R = double>
[[nodiscard]] constexpr length<R> crown_left(const basic_frets<R>& f, int n) {
    require_that(n >= 0, "fret", "must be 0 or more");
    return kernel::crown_left(f, n);
}

/// Height z of the crest of fret `n` at `y` off the centre line, over the centre line of the bare straight board.
template <class R = double>
[[nodiscard]] constexpr length<R> crest_height(const basic_board<R>& b, const basic_frets<R>& f, int n,
                                               param<length<R>> y) {
    return surface_height(b.surface, fret_position(b.scale, n), y) + crown_left(f, n);
}

} // namespace tautline
