#pragma once
/// @file
/// The radius of a board as found, from a measured sagitta or from a radius gauge and a feeler, with its uncertainty.

#include "surface.hpp"

namespace tautline {

/// A radius and how well it is known.
template <class R = double>
struct basic_found_radius {
    length<R> sagitta{};               ///< over the width measured across; negative: a hollow board
    std::optional<length<R>> radius{}; ///< none: flat within the reading's error, or hollow
    std::optional<length<R>> error{}; ///< standard uncertainty of the radius, to first order; none where there is no radius
};
using found_radius = basic_found_radius<double>;

/// Radius from how far the middle of a board stands over its edges, as a straightedge across it tells. On a rounded
/// board the straightedge rocks, and the height is the gap under each end. On a hollow board it bridges the hollow, and
/// the height is negative. `width` is the width that the reading spans, `reading_error` >= 0 the standard uncertainty
/// of the height.
///
/// `R = ((w/2)^2 + h^2)/(2h)`, `dR/dh = (1 - (w/2)^2/h^2)/2`: the same reading error counts with the square of the
/// radius.
[[nodiscard]] constexpr auto find_radius(a_length auto middle_height, a_length auto width, a_length auto reading_error) {
    using R = common_real_t<decltype(middle_height), decltype(width), decltype(reading_error)>;
    const length<R> h = over<R>(middle_height), half = over<R>(width) / 2, u = over<R>(reading_error);
    require("width", over<R>(width), more_than(0 * units::mm));
    require("reading error", u, at_least(0 * units::mm));
    require("sagitta over half the width", R(ratio(h, half)), between(-1, 1));
    basic_found_radius<R> found{.sagitta = h};
    if (in_all_lanes(is_less(u, h)) && in_all_lanes(number<R>(0) < h.value())) {
        const R steep = R(ratio(half, h));
        found.radius = radius_from_sagitta(h, over<R>(width));
        found.error = abs(length<R>(u * R((number<R>(1) - steep * steep) * number<R>(0.5L))));
    }
    return found;
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::LENGTH, messages::LENGTH, messages::LENGTH> find_radius(Given...)
    TAUTLINE_REFUSED("wanted are three LENGTHS: find_radius(1*mm, 50*mm, 0.02*mm)");

/// Radius from a gauge of known radius laid across the board. The feeler's gap is positive under both ends of the
/// gauge, where the board is rounder than the gauge; give a gap under the middle as negative. The gauge spans `width`.
[[nodiscard]] constexpr auto find_radius_with_gauge(a_length auto gauge_radius, a_length auto gap, a_length auto width,
                                                    a_length auto reading_error) {
    using R = common_real_t<decltype(gauge_radius), decltype(gap), decltype(width), decltype(reading_error)>;
    return find_radius(length<R>(sagitta(over<R>(gauge_radius), over<R>(width)) + over<R>(gap)), over<R>(width),
                       over<R>(reading_error));
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::LENGTH, messages::LENGTH, messages::LENGTH, messages::LENGTH>
find_radius_with_gauge(Given...)
    TAUTLINE_REFUSED("wanted are four LENGTHS: find_radius_with_gauge(300*mm, 0.1*mm, 50*mm, 0.02*mm)");

} // namespace tautline
