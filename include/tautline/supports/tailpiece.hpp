#pragma once
/// @file
/// The tailpiece: where the strings go on to behind a floating bridge.
///
/// Source: statics; a hinged bar in balance turns until the pulls have no moment about its hinge.

#include <algorithm>
#include <cstddef>
#include <span>

#include "../core/number_row.hpp"
#include "../core/root.hpp"
#include "break_angle.hpp"

namespace tautline {

/// A tailpiece that hangs on a hinge across the end of the body (a gut loop, a wire, a hinge pin) and holds all strings on
/// one straight bar square to the centre line.
template <class R = double>
struct basic_hinged_tailpiece {
    using real = R;
    needed<length<R>> hinge_x; ///< the hinge's place along the strings
    needed<length<R>> hinge_z; ///< the hinge's height
    needed<length<R>> reach;   ///< from the hinge to where the strings leave the bar, more than 0

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("hinge_x", about_an_instrument(), self.hinge_x...);
        visit("hinge_z", about_an_instrument(), self.hinge_z...);
        visit("reach", between(0.1 * units::mm, 1000 * units::mm), self.reach...);
    }
};
using hinged_tailpiece = basic_hinged_tailpiece<double>;

/// One string between saddle and tailpiece.
template <class R = double>
struct basic_tail_string {
    using real = R;
    basic_point<R> saddle{};  ///< its axis on the saddle
    needed<length<R>> across; ///< where it leaves the tailpiece, from the centre line
    needed<force<R>> tension; ///< at least 0

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("saddle", self.saddle...);
        visit("across", about_an_instrument(), self.across...);
        visit("tension", between(0 * units::N, 5000 * units::N), self.tension...);
    }
};
using tail_string = basic_tail_string<double>;

namespace kernel {

/// Where the strings leave a tailpiece whose bar stands at `rise` above the line from the hinge toward the nut.
template <class R>
[[nodiscard]] basic_point<R> bar_point(const basic_hinged_tailpiece<R>& tail, const R& rise, const length<R>& across) {
    basic_point<R> p;
    p.x = tail.hinge_x - cos(rise) * tail.reach;
    p.y = across;
    p.z = tail.hinge_z + sin(rise) * tail.reach;
    return p;
}

/// Moment of the strings about a tailpiece's hinge over its reach, where its bar stands at `rise`; D is S or `dual<S, 1>`.
/// Strings go side by side in rows.
/// @tparam S number type in which the model is looked at: R, or `search_t<R>`
template <class S, class R, class D>
[[nodiscard]] D turning_of_bar(const basic_hinged_tailpiece<R>& tail, std::span<const basic_tail_string<R>> strings,
                               const D& rise) {
    using V = row_of<S>;
    using many = std::conditional_t<std::is_same_v<D, S>, V, dual<V, 1>>;
    constexpr std::size_t W = places_in<V>;
    const auto seen = [](const R& x) {
        if constexpr (std::is_same_v<S, R>) {
            return x;
        } else {
            return S(searched(x));
        }
    };
    const auto everywhere = [](const D& x) {
        if constexpr (std::is_same_v<many, D>) {
            return x;
        } else if constexpr (std::is_same_v<D, S>) {
            return V(x);
        } else {
            return many(V(x.value), {V(x.partial[0])});
        }
    };
    const many c = everywhere(D(cos(rise))), s = everywhere(D(sin(rise)));
    const V reach(seen(tail.reach.value()));
    many turning{};
    for (std::size_t first = 0; first < strings.size(); first += W) {
        const auto row = [&](auto&& number_of) {
            return row_from<V>(
                [&](std::size_t k) { return seen(number_of(strings[std::min(first + k, strings.size() - 1)])); });
        };
        // From bar to saddle, and that pull's part square to the bar. What lies beyond the last string does not pull.
        const many dx = row([&](const auto& string) { return (tail.hinge_x - string.saddle.x).value(); }) - c * many(reach);
        const many dz = row([&](const auto& string) { return (string.saddle.z - tail.hinge_z).value(); }) - s * many(reach);
        const many dy = row([&](const auto& string) { return (string.saddle.y - string.across).value(); });
        const V pull = row_from<V>([&](std::size_t k) {
            return first + k < strings.size() ? seen(strings[first + k].tension.value()) : number<S>(0);
        });
        turning += many(pull) * (s * dx - c * dz) / sqrt(many(dx * dx + dy * dy + dz * dz));
    }
    return sum_of_places<D>(turning);
}

template <class R>
[[nodiscard]] angle<R> tailpiece_rise(const basic_hinged_tailpiece<R>& tail,
                                      std::span<const basic_tail_string<R>> strings) {
    using S = search_t<R>;
    // Each string alone would turn the bar into the line from its saddle to the hinge; together they turn it to somewhere
    // between these lines.
    S low = number<S>(10), high = number<S>(-10);
    for (const auto& s : strings) {
        const S own =
            atan2(searched(length<R>(s.saddle.z - tail.hinge_z)), searched(length<R>(tail.hinge_x - s.saddle.x))).value();
        low = min(low, own);
        high = max(high, own);
    }
    const S margin = number<S>(0.02L);
    const S rest = find_root([&](const auto& rise) { return turning_of_bar<S>(tail, strings, rise); }, S(low - margin),
                             S(high + margin));
    if constexpr (std::is_same_v<S, R>) {
        return angle<R>::from_value(rest);
    } else {
        // The search is for a place in plain numbers; Newton's steps from there carry derivatives, each one order more,
        // and leave the value as it is.
        R rise(rest);
        for (int i = 0; i < derivatives_in<R>; ++i) {
            const auto y = turning_of_bar<R>(tail, strings, dual<R, 1>::variable(rise, 0));
            const R step = y.value / y.partial[0];
            rise = rise - (step - without_derivatives(step));
        }
        return angle<R>::from_value(rise);
    }
}

/// The angle at which a tailpiece stands when the strings' end of its bar is held at height `z`.
template <class R>
[[nodiscard]] angle<R> rise_at_height(const basic_hinged_tailpiece<R>& tail, const length<R>& z) {
    return angle<R>::from_value(asin(R(ratio<unit::length, R>(z - tail.hinge_z, tail.reach))));
}

template <class R>
[[nodiscard]] force<R> tailpiece_press(const basic_hinged_tailpiece<R>& tail, const angle<R>& rise,
                                       std::span<const basic_tail_string<R>> strings) {
    const R c = cos(rise), s = sin(rise);
    force<R> lifts{};
    for (const auto& string : strings) {
        const auto pull =
            pull_along(kernel::direction_between(bar_point<R>(tail, rise.value(), string.across), string.saddle),
                       force<R>(string.tension));
        lifts += pull.x * s + pull.z * c;
    }
    return lifts;
}

} // namespace kernel

/// The angle at which a hinged tailpiece stands under its strings; positive when the strings' end is above the hinge. The
/// tailpiece's own weight is neglected: it is small against the pull of the strings.
/// @param strings at least one with a tension; each saddle must lie farther from the hinge than the bar's reach
template <class R = double>
[[nodiscard]] angle<R> tailpiece_rise(const basic_hinged_tailpiece<R>& tail,
                                      std::type_identity_t<std::span<const basic_tail_string<R>>> strings) {
    require_valid(tail, "tailpiece");
    require_that(!strings.empty(), "strings", "must hold at least one string");
    force<R> pull{};
    for (std::size_t i = 0; i < strings.size(); ++i) {
        const auto& s = strings[i];
        require_valid(s, messages::path_of("strings", i));
        require_that(in_all_lanes(tail.reach.value() < (tail.hinge_x - s.saddle.x).value()), "tailpiece.reach",
                     "must be less than the distance from the hinge to the saddle: the bridge stands beyond the tailpiece");
        pull += s.tension;
    }
    require("strings' total tension", pull, more_than(0 * units::N));
    return kernel::tailpiece_rise(tail, strings);
}

/// The force, square to the bar, with which a screw or a bracket at the strings' end must press a tailpiece down to hold
/// it at `rise`: the strings' moment about the hinge divided by the reach. 0 where the tailpiece hangs at `rise` by
/// itself; negative where it must be held up. Source: statics.
/// @param strings as for `tailpiece_rise`
template <class R = double>
[[nodiscard]] force<R> tailpiece_press(const basic_hinged_tailpiece<R>& tail, param<angle<R>> rise,
                                       std::type_identity_t<std::span<const basic_tail_string<R>>> strings) {
    require("rise", rise, between(-90 * units::deg, 90 * units::deg));
    (void)tailpiece_rise<R>(tail, strings); // checks what it is given
    return kernel::tailpiece_press<R>(tail, angle<R>(rise), strings);
}

/// Where a string leaves a hinged tailpiece that stands at `rise`.
template <class R = double>
[[nodiscard]] basic_point<R> tailpiece_point(const basic_hinged_tailpiece<R>& tail, param<angle<R>> rise,
                                             param<length<R>> across) {
    require_valid(tail, "tailpiece");
    require("rise", rise, between(-90 * units::deg, 90 * units::deg));
    require("across", across, any_finite<unit::length>());
    return kernel::bar_point<R>(tail, rise.value(), across);
}

} // namespace tautline
