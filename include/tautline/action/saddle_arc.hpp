#pragma once
/// @file
/// The arc that saddle heights make across the strings, and the radius that fits it best.
///
/// Source: least squares (Gauss-Newton) for a circle in terms of its curvature, which stays finite for a flat saddle.

#include <optional>
#include <span>
#include <vector>

#include "../core/dual.hpp"
#include "../core/linear_system.hpp"
#include "height.hpp"

namespace tautline {

/// The circle that fits saddle tops best, seen from the end of the board.
template <class R = double>
struct basic_saddle_arc {
    using real = R;
    curvature<R> bend{};   ///< 1/radius; positive: highest in the middle; 0: flat
    length<R> middle{};    ///< height of the arc over the centre line
    R tilt{};              ///< slope of the arc there, rise for each unit across; positive rises toward the treble side
    length<R> worst_off{}; ///< largest distance of a top from the arc, in height

    /// The radius; nothing where the saddle is flat or hollow.
    [[nodiscard]] std::optional<length<R>> radius() const {
        if (!in_all_lanes(number<R>(0) < bend.value())) { return std::nullopt; }
        return length<R>::from_value(number<R>(1) / bend.value());
    }
};

namespace kernel {

/// Height at y of the circle through (0, middle) with slope `tilt` and curvature `bend` there: the root of `bend/2 (y^2 +
/// w^2) + w cos(t) - y sin(t) = 0`, where tan(t) is the tilt. In metres.
template <class R>
[[nodiscard]] constexpr R arc_height(const R& middle, const R& tilt, const R& bend, const R& y) {
    const R cosine = number<R>(1) / sqrt(R(number<R>(1) + tilt * tilt)), sine = tilt * cosine;
    const R rest = y * sine - number<R>(0.5L) * bend * y * y;
    // A circle too small to reach y ends at its side; a search that strays there is sent back.
    const R inside = max(R(cosine * cosine + number<R>(2) * bend * rest), R(number<R>(1e-3L)));
    return middle + number<R>(2) * rest / (cosine + sqrt(inside));
}

template <class R>
[[nodiscard]] basic_saddle_arc<R> saddle_arc(std::span<const length<R>> y, std::span<const length<R>> z) {
    R reach = number<R>(0);
    for (const auto& at : y) { reach = max(reach, R(abs(at.value()))); }
    // The unknowns are scaled by the reach, so that all three columns are of like size.
    R middle = number<R>(0), tilt = number<R>(0), bend = number<R>(0);
    using D = dual<R, 3>;
    for (int step = 0; step < 12; ++step) {
        normal_equations<R, 3> fit;
        for (std::size_t i = 0; i < y.size(); ++i) {
            const D model = kernel::arc_height<D>(D::variable(middle, 0), D::variable(tilt, 1), D::variable(bend, 2),
                                                  D(R(y[i].value() / reach)));
            fit.add(model.partial, R(z[i].value() / reach - model.value));
        }
        const auto change = fit.solution();
        middle = middle + change[0];
        tilt = tilt + change[1];
        bend = bend + change[2];
    }
    basic_saddle_arc<R> arc{curvature<R>::from_value(bend / reach), length<R>::from_value(middle * reach), tilt, {}};
    for (std::size_t i = 0; i < y.size(); ++i) {
        const R off = z[i].value() / reach - kernel::arc_height<R>(middle, tilt, bend, y[i].value() / reach);
        arc.worst_off = max(arc.worst_off, length<R>::from_value(abs(off) * reach));
    }
    return arc;
}

} // namespace kernel

/// Height of an arc at a place across. Valid over the width that the arc was fitted to.
template <class R = double>
[[nodiscard]] length<R> arc_height(const basic_saddle_arc<R>& arc, param<length<R>> y) {
    require("y", y, any_finite<unit::length>());
    return length<R>::from_value(kernel::arc_height<R>(arc.middle.value(), arc.tilt, arc.bend.value(), y.value()));
}

/// The circle that fits saddle tops best: least squares of the differences in height.
/// @param y places across, ascending (bass first), at least three
/// @param z heights there
template <class R>
[[nodiscard]] basic_saddle_arc<R> saddle_arc(std::span<const length<R>> y,
                                             std::type_identity_t<std::span<const length<R>>> z) {
    require_that(y.size() == z.size(), "y and z", "must have one entry for each string");
    require_that(y.size() >= 3, "y", "must hold at least three strings: through fewer goes any arc");
    for (std::size_t i = 0; i < y.size(); ++i) {
        require(messages::path_of("y", i), y[i], between(-500 * units::mm, 500 * units::mm));
        require(messages::path_of("z", i), z[i], between(-500 * units::mm, 500 * units::mm));
        require_that(i == 0 || in_all_lanes(y[i - 1].value() < y[i].value()), messages::path_of("y", i),
                     "must be on the treble side of the string before it");
    }
    return kernel::saddle_arc<R>(y, z);
}
/// The same for places in a vector.
template <class R, class Allocator>
[[nodiscard]] basic_saddle_arc<R> saddle_arc(const std::vector<length<R>, Allocator>& y,
                                             std::type_identity_t<std::span<const length<R>>> z) {
    return saddle_arc(std::span<const length<R>>(y), z);
}

} // namespace tautline
