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
    /// Height of the unworn crown over the board.
    needed<length<R>> crown_height;
    needed<length<R>> crown_width; ///< across the crown, along the string
    /// Depth of the tang from the underside of the crown. Absent: not measured, as with frets that sit in their slots.
    std::optional<field<length<R>>> tang_depth{};
    /// Thickness of the tang between its studs; absent: not measured.
    std::optional<field<length<R>>> tang_thickness{};
    /// Thickness over the studs (barbs) of the tang; absent: the tang is smooth.
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

/// The frets in a board: their wire, and what wear or levelling has taken off each.
template <class R = double>
struct basic_frets {
    using real = R;
    basic_fret_wire<R> wire; ///< the wire in the slots
    /// Height lost from the crown of each fret, first fret first. Frets beyond the list are unworn.
    std::vector<field<length<R>>> wear{};
    std::vector<field<length<R>>> wear_bass{};   ///< the same at a fret's bass end, the board's edge, where its ends differ
    std::vector<field<length<R>>> wear_treble{}; ///< the same at its treble end
    std::optional<field<length<R>>> zero_crown{}; ///< crown of a zero fret over the board; absent: that of the wire

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("wire", self.wire...);
        visit("wear", between(0 * units::mm, 10 * units::mm), self.wear...);
        visit("wear_bass", between(0 * units::mm, 10 * units::mm), self.wear_bass...);
        visit("wear_treble", between(0 * units::mm, 10 * units::mm), self.wear_treble...);
        visit("zero_crown", between(0.1 * units::mm, 10 * units::mm), self.zero_crown...);
    }
    /// Whether the wear is told at both ends of each fret; it is straight between them.
    [[nodiscard]] constexpr bool told_by_ends() const { return !wear_bass.empty() && !wear_treble.empty(); }
    template <class Report>
    void rules(Report&& report) const {
        report_worn(wear, "wear", report);
        report_worn(wear_bass, "wear_bass", report);
        report_worn(wear_treble, "wear_treble", report);
        if (wear_bass.empty() != wear_treble.empty()) {
            report(wear_bass.empty() ? "wear_bass" : "wear_treble",
                   "must be given, too: frets are told at both ends or, where these are alike, by wear alone");
        }
        if (!wear.empty() && !(wear_bass.empty() && wear_treble.empty())) {
            report("wear", "must be left out where wear_bass and wear_treble tell the frets at their ends");
        }
    }

private:
    template <class Report>
    void report_worn(const std::vector<field<length<R>>>& worn, std::string_view name, Report&& report) const {
        for (std::size_t i = 0; i < worn.size(); ++i) {
            if (!in_all_lanes(is_less<unit::length, R>(worn[i], wire.crown_height))) {
                report(messages::path_of(name, i), "must be less than the height of the crown");
            }
        }
    }
};
using frets = basic_frets<double>;

namespace kernel {

/// Height lost of fret n, 1 or more, by a list of wear. Frets beyond the list count as unworn.
template <class R>
[[nodiscard]] constexpr length<R> worn_off(const std::vector<field<length<R>>>& worn, int n) {
    const auto i = static_cast<std::size_t>(n - 1);
    return n < 1 || i >= worn.size() ? length<R>() : length<R>(worn[i]);
}
/// On the centre line.
template <class R>
[[nodiscard]] constexpr length<R> crown_left(const basic_frets<R>& f, int n) {
    if (n == 0) { return f.zero_crown ? length<R>(*f.zero_crown) : length<R>(f.wire.crown_height); }
    if (f.told_by_ends()) {
        return f.wire.crown_height - (worn_off(f.wear_bass, n) + worn_off(f.wear_treble, n)) * number<R>(0.5L);
    }
    return f.wire.crown_height - worn_off(f.wear, n);
}
/// How much more crown than on the centre line is left of fret n at a place of the board; 0 where its wear is not told
/// at its ends.
template <class R>
[[nodiscard]] constexpr length<R> crown_across(const basic_board<R>& b, const basic_frets<R>& f, int n, const length<R>& x,
                                               const length<R>& y) {
    if (!f.told_by_ends()) { return {}; }
    const length<R> apart = worn_off(f.wear_bass, n) - worn_off(f.wear_treble, n);
    return y * R(ratio<unit::length, R>(apart, length<R>(kernel::half_width_at(b, x) * number<R>(2))));
}

template <class R>
[[nodiscard]] constexpr length<R> crest_height(const basic_board<R>& b, const basic_frets<R>& f, int n,
                                               const length<R>& y) {
    const length<R> x = kernel::fret_position(b.scale, n);
    return kernel::surface_height(b.surface, x, y) + kernel::crown_left(f, n) + kernel::crown_across(b, f, n, x, y);
}

} // namespace kernel

/// Crown height left of fret `n` on the centre line; `n` = 0 is a zero fret.
template <class R = double>
[[nodiscard]] constexpr length<R> crown_left(const basic_frets<R>& f, int n) {
    require_that(n >= 0, "fret", "must be 0 or more", n);
    return kernel::crown_left(f, n);
}

/// Height z of the crest of fret `n` at `y` off the centre line. It counts from the centre line of the bare straight
/// board.
template <class R = double>
[[nodiscard]] constexpr length<R> crest_height(const basic_board<R>& b, const basic_frets<R>& f, int n,
                                               param<length<R>> y) {
    const length<R> x = fret_position(b.scale, n);
    return surface_height(b.surface, x, y) + crown_left(f, n) + kernel::crown_across<R>(b, f, n, x, y);
}

} // namespace tautline
