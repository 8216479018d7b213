#pragma once
/// @file
/// What a season does to a neck: moisture content from the air, movement of the board, fret ends that stick out.

#include "../core/climate.hpp"
#include "../core/units.hpp"

namespace tautline {

namespace kernel {

template <class R>
[[nodiscard]] constexpr moisture_content<R> equilibrium_moisture(const basic_climate<R>& air) {
    const R t = air.temperature.in_unit(), h = air.humidity.in_unit() / number<R>(100);
    const auto quadratic = [&](long double a, long double b, long double c) {
        return R(number<R>(a) + t * (number<R>(b) + t * number<R>(c)));
    };
    const R w = quadratic(349, 1.29L, 0.0135L);
    const R k = quadratic(0.805L, 0.000736L, -0.00000273L);
    const R k1 = quadratic(6.27L, -0.00938L, -0.000303L);
    const R k2 = quadratic(1.91L, 0.0407L, -0.000293L);
    const R one = number<R>(1), two = number<R>(2), kh = k * h;
    const R first = kh / R(one - kh);
    const R second = R(k1 * kh + two * k1 * k2 * kh * kh) / R(one + k1 * kh + k1 * k2 * kh * kh);
    return moisture_content<R>::from_number(number<R>(1800) / w * R(first + second));
}

/// Refuses an air outside the range of the fit. The handbook's table begins at 30 deg F.
template <class R>
constexpr void require_fitted_air(const basic_climate<R>& air, std::string_view name) {
    require_valid(air, name);
    if (const auto t = air.temperature.in_unit(); !in_all_lanes(number<R>(-1.2L) <= t && t <= number<R>(60))) {
        require(messages::joined({name, ".temperature in deg C"}), t, between(-1.2, 60));
    }
}

} // namespace kernel

/// Moisture content that wood comes to in an air of -1.2 to 60 deg C; others are refused. A finished instrument takes
/// weeks to get there. Source: two-hydrate equation of Hailwood and Horrobin as fitted in W. T. Simpson, FPL-RN-0268
/// (1998); Wood Handbook ch. 4, whose table begins at 30 deg F (-1.1 deg C).
template <class R = double>
[[nodiscard]] constexpr moisture_content<R> equilibrium_moisture(const basic_climate<R>& air) {
    kernel::require_fitted_air(air, "climate");
    return kernel::equilibrium_moisture(air);
}

/// Change of a measure D of wood from moisture content M1 to M2, `D C (M2 - M1)`. C is the radial or tangential
/// coefficient for 1 %. Measure more than 0, coefficient 0 to 0.01. It is meant for moisture contents of 6 to 14 % and
/// refused outside 0 to 25 %.
/// Source: Wood Handbook ch. 13.
template <class R>
[[nodiscard]] constexpr length<R> movement(const length<R>& measure, const std::type_identity_t<R>& coefficient,
                                           const moisture_content<std::type_identity_t<R>>& from,
                                           const moisture_content<std::type_identity_t<R>>& to) {
    require("measure", measure, more_than(0 * units::mm));
    require("movement coefficient", coefficient, between(0, 0.01));
    require("moisture content before", from.in_unit(), between(0, 25));
    require("moisture content after", to.in_unit(), between(0, 25));
    return measure * R(coefficient * (to.in_unit() - from.in_unit()));
}
/// Refused: other kinds, or these in another order.
template <of_any_kind Given, class... More>
requires(!a_length<Given>) messages::wanted_are<messages::LENGTH> movement(Given, const More&...)
TAUTLINE_REFUSED("wanted is a LENGTH first: movement(50*mm, 0.0025, 8*percent_mc, 6*percent_mc)");

/// A board whose frets were dressed flush in one air.
template <class R = double>
struct basic_moving_board {
    using real = R;
    needed<length<R>> width;       ///< across the board, in the air it was fretted in
    needed<length<R>> thickness;   ///< there
    R across = not_given<R>();     ///< movement coefficient across the board: tangential for a flat-sawn one
    R down = not_given<R>();       ///< through its thickness: radial for a flat-sawn one
    basic_climate<R> fretted_in{}; ///< the air in which it was measured

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("width", between(1 * units::mm, 400 * units::mm), self.width...);
        visit("thickness", between(0.1 * units::mm, 30 * units::mm), self.thickness...);
        visit("across", between(0, 0.01), self.across...);
        visit("down", between(0, 0.01), self.down...);
        visit("fretted_in", self.fretted_in...);
    }
};
using moving_board = basic_moving_board<double>;

/// The board in another air, once it has come to rest there.
template <class R = double>
struct basic_seasonal_board {
    using real = R;
    moisture_content<R> moisture{}; ///< at rest in the other air
    length<R> width{};              ///< across the board then
    length<R> thickness{};          ///< of the board then
    length<R> fret_ends{};          ///< how far they stick out on each side; negative: the wood stands beyond them
};
using seasonal_board = basic_seasonal_board<double>;

/// A board after it has come to rest in another air. Both airs must be of -1.2 to 60 deg C. In neither may wood come to
/// more than 25 % moisture, where `movement` ends (some 96 % relative humidity at room temperature). Else
/// `invalid_input`.
template <class R = double>
[[nodiscard]] constexpr basic_seasonal_board<R> board_in(const basic_moving_board<R>& moving, const basic_climate<R>& air) {
    require_valid(moving, "board");
    kernel::require_fitted_air(moving.fretted_in, "board.fretted_in");
    kernel::require_fitted_air(air, "climate");
    const auto then = kernel::equilibrium_moisture(moving.fretted_in), now = kernel::equilibrium_moisture(air);
    const length<R> wider = movement<R>(moving.width, moving.across, then, now);
    return {now, moving.width + wider, moving.thickness + movement<R>(moving.thickness, moving.down, then, now),
            wider * number<R>(-0.5L)};
}

/// Standard uncertainty of the difference of two woods' movements along the grain, for 1 %, where nobody measured them.
/// The bow of a season is then 0, give or take the effect of twice this value. That is mostly larger than all other
/// effects of a season. Pieces of one species differ by 0.1 to 0.4 % of their length green to oven-dry (J. Wood Sci.
/// 2020, table 2; plantation woods, over 28 %): 0.5e-4 to 2e-4. Old wood that moves little has less.
inline constexpr double unmeasured_along_the_grain = 9e-5;

/// Strain by which a board wants to be longer than its back after a change of moisture content, for
/// `basic_neck::board_strain`. It follows from the movement of both woods along the grain for 1 %, which the caller
/// gives. That movement is small, varies much and is known of hardly any board. From green to oven-dry wood shrinks 0.1
/// to 0.2 % along the grain (Wood Handbook ch. 4), so some 0.00005 for 1 %. Movements -0.001 to 0.001, moisture
/// contents 0 to 25 % as for `movement`.
template <class R>
[[nodiscard]] constexpr R board_strain(const R& board_along, const std::type_identity_t<R>& back_along,
                                       const moisture_content<std::type_identity_t<R>>& from,
                                       const moisture_content<std::type_identity_t<R>>& to) {
    require("board's movement along the grain", board_along, between(-0.001, 0.001));
    require("back's movement along the grain", back_along, between(-0.001, 0.001));
    require("moisture content before", from.in_unit(), between(0, 25));
    require("moisture content after", to.in_unit(), between(0, 25));
    return (board_along - back_along) * (to.in_unit() - from.in_unit());
}

} // namespace tautline
