#pragma once
/// @file
/// Stiffness of a neck's cross-section: a fretboard with an arched top, a back of another wood, and what is let into
/// them.
///
/// The transformed-section method: every piece adds its sums of E dA, E z dA and E z^2 dA, and every cut-out subtracts
/// its own. The sums give axial rigidity, neutral axis and bending rigidity. z = 0 is the bare board's top on the
/// centre line, so the whole neck lies at z <= 0.
///
/// Source: transformed-section method of beam theory, any text on strength of materials (J. M. Gere, Mechanics of
/// Materials, ch. 6, from memory).

#include <array>

#include "../core/describe.hpp"
#include "../core/local_slopes.hpp"
#include "../core/units.hpp"

namespace tautline {

/// Sums over pieces of a section, about z = 0. Sums of several pieces add; those of a cut-out subtract.
template <class R = double>
struct basic_section_sums {
    using real = R;
    force<R> ea{};             ///< sum of E dA
    moment<R> es{};            ///< sum of E z dA
    flexural_rigidity<R> ej{}; ///< sum of E z^2 dA

    /// @{
    /// Pieces add, cut-outs subtract.
    friend constexpr basic_section_sums operator+(const basic_section_sums& a, const basic_section_sums& b) {
        return {a.ea + b.ea, a.es + b.es, a.ej + b.ej};
    }
    friend constexpr basic_section_sums operator-(const basic_section_sums& a, const basic_section_sums& b) {
        return {a.ea - b.ea, a.es - b.es, a.ej - b.ej};
    }
    /// @}
};
using section_sums = basic_section_sums<double>;

/// A section as the beam sees it.
template <class R = double>
struct basic_section {
    using real = R;
    force<R> axial_rigidity{};               ///< EA
    length<R> neutral_axis{};                ///< z of the axis that pure bending leaves unstrained; negative, below the top
    flexural_rigidity<R> bending_rigidity{}; ///< EI about the neutral axis
};
using section = basic_section<double>;

/// The shape of a neck's back as three numbers: with half width b and depth h its area is `2 b h area`. About its flat
/// top the first moment is `b h^2 first` and the second moment `(2/3) b h^3 second`. For a rectangle all three are 1.
template <class R = double>
struct basic_back_shape {
    using real = R;
    R area = R(1);   ///< area over that of the rectangle around it
    R first = R(1);  ///< first moment over the rectangle's
    R second = R(1); ///< second moment over the rectangle's
};
using back_shape = basic_back_shape<double>;

namespace kernel {

/// Logarithm of the gamma function for x > 0, by Stirling's series after nine steps of its recurrence. Its error is
/// some 1e-16.
/// Source: M. Abramowitz and I. A. Stegun, Handbook of Mathematical Functions, 6.1.15 and 6.1.41 (from memory).
template <class R>
[[nodiscard]] R log_gamma(const R& x) {
    R product = x;
    for (int i = 1; i < 9; ++i) { product = R(product * (x + number<R>(i))); }
    const R z = x + number<R>(9);
    const R one = number<R>(1), u = one / R(z * z);
    constexpr std::array<long double, 7> series{1 / 12.0L,   -1 / 360.0L,      1 / 1260.0L, -1 / 1680.0L,
                                                1 / 1188.0L, -691 / 360360.0L, 1 / 156.0L};
    R tail = R(0);
    for (std::size_t i = series.size(); i-- > 0;) { tail = R(tail * u + number<R>(series[i])); }
    const R half_log_two_pi = number<R>(0.918938533204672741780329736405617640L);
    return R((z - number<R>(0.5L)) * log(z) - z + half_log_two_pi + tail / z - log(product));
}

/// Shape of a half superellipse `|y/b|^k + |z/h|^k = 1`. Its integrals are
/// `Gamma(1+1/k) Gamma(1+m/k) / Gamma(1+(m+1)/k)`.
template <class R>
[[nodiscard]] basic_back_shape<R> superellipse_shape(const R& k) {
    const R one = number<R>(1);
    const R base = log_gamma(R(one + one / k));
    const auto integral = [&](int m) {
        return R(exp(R(base + log_gamma(R(one + number<R>(m) / k)) - log_gamma(R(one + number<R>(m + 1) / k)))));
    };
    return {integral(1), integral(2), integral(3)};
}

/// Sums of a strip of constant width from z = bottom to z = top.
template <class R>
[[nodiscard]] constexpr basic_section_sums<R> rectangle_sums(const stress<R>& e, const length<R>& width,
                                                             const length<R>& top, const length<R>& bottom) {
    const auto per_width = e * width;
    return {per_width * (top - bottom), number<R>(0.5L) * (per_width * (top * top - bottom * bottom)),
            (per_width * (top * top * top - bottom * bottom * bottom)) / number<R>(3)};
}

/// One of eight points of Gauss-Legendre integration between 0 and 1 (Abramowitz and Stegun, table 25.4, from memory).
struct gauss_point {
    long double at, weight;
};
inline constexpr std::array<gauss_point, 8> gauss_points = [] {
    constexpr long double x[] = {0.18343464249564980494L, 0.52553240991632898582L, 0.79666647741362673959L,
                                 0.96028985649753623168L};
    constexpr long double w[] = {0.36268378337836198297L, 0.31370664587788728734L, 0.22238103445337447054L,
                                 0.10122853629037625915L};
    std::array<gauss_point, 8> points{};
    for (std::size_t i = 0; i < 4; ++i) {
        points[2 * i] = {(1 - x[i]) / 2, w[i] / 2};
        points[2 * i + 1] = {(1 + x[i]) / 2, w[i] / 2};
    }
    return points;
}();

/// How far an arc of curvature `arc` has fallen at y from its highest point; `|arc y| < 1`. An arc of 0 is flat.
template <class R>
[[nodiscard]] constexpr length<R> arc_fall(const curvature<R>& arc, const length<R>& y) {
    const R s = ratio(y, length<R>::from_value(number<R>(1))) * arc.value();
    const R one = number<R>(1);
    return y * R(s / (one + sqrt(R(one - s * s))));
}

/// Means of an arched top's fall over the half width b: of the fall, its square and its cube, each divided by the same
/// power of `arc b^2`. They depend on `arc b` alone and hardly change along a neck.
template <class R>
struct arc_shape {
    R first{};
    R second{};
    R third{};
};
template <class R>
[[nodiscard]] constexpr arc_shape<R> arc_shape_of(const R& arc_times_half_width) {
    const R one = number<R>(1), square = arc_times_half_width * arc_times_half_width;
    arc_shape<R> shape;
    for (const gauss_point& p : gauss_points) {
        const R t2 = number<R>(p.at * p.at), w = number<R>(p.weight);
        const R fall = t2 / R(one + sqrt(R(one - square * t2)));
        shape.first += w * fall;
        shape.second += w * fall * fall;
        shape.third += w * fall * fall * fall;
    }
    return shape;
}

/// Sums of the board between the arc of its top and a bottom that is flat, or that follows the arc at the same depth.
template <class R>
[[nodiscard, gnu::always_inline]] constexpr basic_section_sums<R>
board_sums(const stress<R>& e, const length<R>& half_width, const length<R>& thickness, const curvature<R>& arc,
           const arc_shape<R>& shape, bool bottom_follows_arc = false) {
    const auto per_width = e * half_width;
    const length<R>& t = thickness;
    const length<R> whole = length<R>::from_value((arc * half_width).value() * half_width.value());
    const length<R> f = whole * shape.first;
    const auto f2 = whole * whole * shape.second;
    const R two = number<R>(2), third = number<R>(2.0L / 3);
    if (bottom_follows_arc) {
        const R three = number<R>(3);
        return {per_width * t * two, -(per_width * (two * f * t + t * t)),
                per_width * (t * t * t + three * (f * t * t + f2 * t)) * third};
    }
    return {per_width * (t - f) * two, per_width * (f2 - t * t),
            per_width * (t * t * t - whole * whole * whole * shape.third) * third};
}
template <class R>
[[nodiscard]] constexpr basic_section_sums<R> board_sums(const stress<R>& e, const length<R>& half_width,
                                                         const length<R>& thickness, const curvature<R>& arc,
                                                         bool bottom_follows_arc = false) {
    const auto sums = by_local_slopes(
        [&](const auto& modulus, const auto& half, const auto& deep, const auto& curved) __attribute__((always_inline)) {
            using D = std::remove_cvref_t<decltype(modulus)>;
            const auto local =
                board_sums<D>(stress<D>::from_value(modulus), length<D>::from_value(half), length<D>::from_value(deep),
                              curvature<D>::from_value(curved), arc_shape_of<D>(D(curved * half)), bottom_follows_arc);
            return std::array<D, 3>{local.ea.value(), local.es.value(), local.ej.value()};
        },
        e.value(), half_width.value(), thickness.value(), arc.value());
    return {force<R>::from_value(sums[0]), moment<R>::from_value(sums[1]), flexural_rigidity<R>::from_value(sums[2])};
}

/// Sums of a back of the given shape below z = top.
template <class R>
[[nodiscard, gnu::always_inline]] constexpr basic_section_sums<R> back_sums(const stress<R>& e, const length<R>& half_width,
                                                                            const length<R>& depth, const length<R>& top,
                                                                            const basic_back_shape<R>& shape) {
    const auto ea = e * half_width * depth * R(number<R>(2) * shape.area);
    const auto below = e * half_width * depth * depth * shape.first;
    const auto second = e * half_width * depth * depth * depth * R(number<R>(2) / number<R>(3) * shape.second);
    return {ea, ea * top - below, second - number<R>(2) * (below * top) + ea * top * top};
}

template <class R>
[[nodiscard]] constexpr basic_section<R> section_from(const basic_section_sums<R>& s) {
    const length<R> z = s.es / s.ea;
    return {s.ea, z, s.ej - s.es * z};
}

} // namespace kernel

/// Sums of a rectangular strip from z = `top` down to `bottom`; modulus and width more than 0.
[[nodiscard]] constexpr auto rectangle_sums(a_stress auto modulus, a_length auto width, a_length auto top,
                                            a_length auto bottom) {
    using R = common_real_t<decltype(modulus), decltype(width), decltype(top), decltype(bottom)>;
    require("modulus", over<R>(modulus), more_than(0 * units::Pa));
    require("width", over<R>(width), more_than(0 * units::mm));
    require("top", over<R>(top), any_finite<unit::length>());
    require("height of the strip", over<R>(top) - over<R>(bottom), more_than(0 * units::mm));
    return kernel::rectangle_sums<R>(over<R>(modulus), over<R>(width), over<R>(top), over<R>(bottom));
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::STRESS, messages::LENGTH, messages::LENGTH, messages::LENGTH> rectangle_sums(Given...)
    TAUTLINE_REFUSED("wanted are a STRESS, a LENGTH, a LENGTH, a LENGTH: rectangle_sums(10*GPa, 40*mm, 0*mm, -6*mm)");

/// Sums of a fretboard: its underside is flat at z = -`thickness`, its top arched with the curvature `arc` = 1 / radius
/// (0 is flat). The radius must be more than the half width, and the sagitta less than the thickness.
[[nodiscard]] constexpr auto board_sums(a_stress auto modulus, a_length auto half_width, a_length auto thickness,
                                        a_curvature auto arc) {
    using R = common_real_t<decltype(modulus), decltype(half_width), decltype(thickness), decltype(arc)>;
    require("modulus", over<R>(modulus), more_than(0 * units::Pa));
    require("half_width", over<R>(half_width), more_than(0 * units::mm));
    require("thickness", over<R>(thickness), more_than(0 * units::mm));
    require("arc", over<R>(arc), range_of<unit::curvature>{{.low = 0}});
    require("half_width over radius", R(over<R>(arc).value() * over<R>(half_width).value()), between(0, 0.95));
    require("thickness at the edge", over<R>(thickness) - kernel::arc_fall<R>(over<R>(arc), over<R>(half_width)),
            more_than(0 * units::mm));
    return kernel::board_sums<R>(over<R>(modulus), over<R>(half_width), over<R>(thickness), over<R>(arc));
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::STRESS, messages::LENGTH, messages::LENGTH, messages::CURVATURE> board_sums(Given...)
    TAUTLINE_REFUSED("wanted are a STRESS, a LENGTH, a LENGTH, a CURVATURE: board_sums(14*GPa, 21*mm, 6*mm, 3*per_metre)");

/// Shape of a half superellipse of exponent 1 to 20: 1 is a V, 2 an ellipse, a large exponent nearly a rectangle.
template <real R>
[[nodiscard]] basic_back_shape<R> superellipse_shape(const R& exponent) {
    require("exponent", exponent, between(1, 20));
    return kernel::superellipse_shape(exponent);
}

/// Sums of a neck's back below z = `top`, from its half width, depth and shape.
template <class R = double>
[[nodiscard]] basic_section_sums<R> back_sums(param<stress<R>> modulus, param<length<R>> half_width, param<length<R>> depth,
                                              param<length<R>> top, const basic_back_shape<R>& shape) {
    require("modulus", modulus, more_than(0 * units::Pa));
    require("half_width", half_width, more_than(0 * units::mm));
    require("depth", depth, more_than(0 * units::mm));
    require("top", top, any_finite<unit::length>());
    return kernel::back_sums<R>(modulus, half_width, depth, top, shape);
}

/// Rigidities and neutral axis of a section from the sums of all its pieces. Throws `invalid_input` where the cut-outs
/// leave nothing.
template <class R = double>
[[nodiscard]] constexpr basic_section<R> section_from(const basic_section_sums<R>& sums) {
    require("axial rigidity of the section", sums.ea, more_than(0 * units::N));
    return kernel::section_from(sums);
}

} // namespace tautline
