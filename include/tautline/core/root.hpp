#pragma once
/// @file
/// The root of a function by Newton's steps inside a bracket, at most a fixed number of them.

#include "dual.hpp"
#include "quantity.hpp"

namespace tautline {

/// The greatest number of steps of `find_root`.
inline constexpr int root_steps = 45;
/// How many of the last are Newton's steps alone. Plain numbers are then right to the last digit, and dual numbers carry
/// dx/dp = -F_p/F_x out of the search.
template <class R>
inline constexpr int closing_root_steps = derivatives_in<R> == 0 ? 1 : 3;

/// The root of `f` between `low` and `high`, where f changes sign once.
///
/// Every Real follows the same path. Each step takes Newton's point if it lies in the bracket, else the middle of the
/// bracket. Every third step takes the middle, unless Newton's point has moved by at most a thousandth of the bracket in
/// every lane. So the bracket shrinks by at least 2^14, or Newton's points are near the root; a smooth function with a
/// simple root has then converged to the last digits. The search goes to its last steps early,
/// when Newton's point has moved by at most a thousand millionth of the bracket in every lane, or by less for numbers with
/// more digits than a double. Where f has the same sign at both ends, the result is not a root and may lie outside the
/// bracket: callers check the ends first.
///
/// @param f      callable on `dual<R, 1>` (a generic lambda); the derivative is exact, not from differences
/// @param low,high ends of the bracket, low < high
/// Source: Newton-Raphson with bisection as in W. H. Press et al., Numerical Recipes, "rtsafe" (idea, from memory), here
/// with one stop for all lanes.
template <real R, class F>
[[nodiscard]] constexpr R find_root(F&& f, R low, R high) {
    using D = dual<R, 1>;
    const R half = number<R>(0.5L);
    // Taken from both ends, so that a root at one end does not reverse the direction.
    const auto rising = f(D(low)).value < f(D(high)).value;
    R x = half * (low + high);
    // As much less than a double needs as the digits are finer: the square of it is below the last of them.
    const long double finest = static_cast<long double>(std::numeric_limits<scalar_of_t<R>>::epsilon()) * 1e7L;
    const R tiny = number<R>(finest < 1e-9L ? finest : 1e-9L) * (high - low), close = number<R>(1e-3L) * (high - low);
    constexpr int closing = closing_root_steps<R>;
    int last = root_steps;
    for (int i = 0; i < last; ++i) {
        const D y = f(D::variable(x, 0));
        const auto left = y.value < number<R>(0);
        // One end moves to x so that the sign change stays inside: low where f(x) has the sign of f(low), else high.
        const R sign_low = select(rising, number<R>(1), number<R>(-1));
        const R sign_y = select(left, number<R>(1), number<R>(-1));
        const auto same = number<R>(0) < sign_low * sign_y;
        low = select(same, x, low);
        high = select(same, high, x);
        const R slope = y.partial[0];
        const auto flat = slope == number<R>(0);
        const R newton = x - y.value / select(flat, number<R>(1), slope);
        const R middle = half * (low + high);
        if (i + closing < last && !in_any_lane(flat) && in_all_lanes(abs(R(newton - x)) <= tiny)) { last = i + closing; }
        if (i >= last - closing) {
            x = select(flat, x, newton);
        } else if (i % 3 == 2 && !in_all_lanes(abs(R(newton - x)) <= close)) {
            x = middle;
        } else {
            // Newton's point counts as outside when the slope is zero.
            const R kept = select(low < newton, newton, middle);
            x = select(flat, middle, select(kept < high, kept, middle));
        }
    }
    return x;
}

/// The root of a nearly linear function by Newton's steps alone, from a start near it. It is far cheaper than
/// `find_root` where a model is known to be close to linear. The caller must check the result: for a function without a
/// root it is not a root.
/// @param f     callable with R and with a dual of it
/// @param tiny  a step so small that the slope is known: one more step along it changes the last digits, and there the
///              search ends, but for one step for every dual that carries a derivative out of it and leaves the value as it
///              is
template <real R, class F>
[[nodiscard]] constexpr R newton_root(F&& f, R x, const std::type_identity_t<R>& tiny = number<R>(0), int steps = 6) {
    const auto look = [&] { return dual<R, 1>(f(dual<R, 1>::variable(x, 0))); };
    bool arrived = false;
    for (int i = 0; i < steps && !arrived; ++i) {
        const dual<R, 1> y = look();
        const R d = R(y.value / y.partial[0]);
        x = R(x - d);
        arrived = in_all_lanes(abs(d) <= tiny);
        if (arrived) { x = R(x - f(x) / y.partial[0]); }
    }
    for (int i = 0; i < derivatives_in<R> && arrived; ++i) {
        const dual<R, 1> y = look();
        const R d = R(y.value / y.partial[0]);
        x = R(x - (d - without_derivatives(d)));
    }
    return x;
}

/// The root of a nearly linear function by secants, from two places near it, for numbers without derivatives. A secant
/// needs no slope, and where a slope costs as much as the function it is the faster way. The caller must check the result:
/// for a function without a root it is not a root.
/// @param first,f_first one place and the function there
/// @param x     another, nearer to the root
/// @param extent over which the function bends: each error is about the product of the two before it divided by `extent`,
///              and the search ends where the next would be in the last digits of `extent`
template <real R, class F>
[[nodiscard]] constexpr R secant_root(F&& f, R first, R f_first, R x, const std::type_identity_t<R>& extent,
                                      int steps = 10) {
    static_assert(derivatives_in<R> == 0, "derivatives would not come out of this search: take newton_root");
    const long double last_digits = static_cast<long double>(std::numeric_limits<scalar_of_t<R>>::epsilon()) * 4;
    const R least = number<R>(last_digits < 1e-9L ? last_digits : 1e-9L) * extent * extent;
    R step_before = x - first;
    for (int i = 0; i < steps; ++i) {
        const R y = f(x), rise = y - f_first;
        const auto flat = rise == number<R>(0);
        const R step = select(flat, number<R>(0), R(y * (x - first) / select(flat, number<R>(1), rise)));
        first = x;
        f_first = y;
        x = x - step;
        if (in_all_lanes(abs(R(step * step_before)) <= least)) { break; }
        step_before = step;
    }
    return x;
}

/// `find_root` for a function from one quantity to another.
template <class U, class R, class F>
[[nodiscard]] constexpr bu::quantity<U, R> find_root(F&& f, const bu::quantity<U, R>& low, const bu::quantity<U, R>& high) {
    return bu::quantity<U, R>::from_value(find_root(
        [&](const auto& x) {
            using D = std::remove_cvref_t<decltype(x)>;
            return f(bu::quantity<U, D>::from_value(x)).value();
        },
        low.value(), high.value()));
}

} // namespace tautline
