#pragma once
/// @file
/// Where a function is zero: Newton steps kept inside a bracket, a fixed number of them.

#include "dual.hpp"
#include "quantity.hpp"

namespace tautline {

/// Steps `find_root` takes at most. The last three are Newton's alone: dual numbers then carry dx/dp = -F_p/F_x out of the
/// search.
inline constexpr int root_steps = 45;

/// The root of `f` between `low` and `high`, where f changes sign once.
///
/// Every Real follows the same path: each step takes Newton's point if it lies in the bracket and the middle of the bracket
/// if not, and every third step the middle whatever Newton says, so the bracket shrinks at least by 2^14 and a smooth
/// function with a simple root has then converged to the last digits. The search ends early, with its last three steps,
/// when Newton's point has moved by less than a thousand millionth of the bracket in every lane. Where f has the same sign
/// at both ends the answer is the last point tried, inside the bracket: callers check the ends first.
///
/// @param f      callable on `dual<R, 1>` (a generic lambda): the derivative is taken exactly, not by differences
/// @param low,high ends of the bracket, low < high
/// Source: Newton-Raphson with bisection as in W. H. Press et al., Numerical Recipes, "rtsafe" (idea, from memory), here
/// with one stop for all lanes.
template <real R, class F>
[[nodiscard]] constexpr R find_root(F&& f, R low, R high) {
    using D = dual<R, 1>;
    const R half = number<R>(0.5L);
    // By both ends, so that a root at an end does not turn the direction round.
    const auto rising = f(D(low)).value < f(D(high)).value;
    R x = half * (low + high);
    const R small = number<R>(1e-9L) * (high - low);
    int last = root_steps;
    for (int i = 0; i < last; ++i) {
        const D y = f(D::variable(x, 0));
        const auto left = y.value < number<R>(0);
        // Moving an end onto x keeps the sign change inside: low where f has low's sign, high where it has not.
        const R sign_low = select(rising, number<R>(1), number<R>(-1));
        const R sign_y = select(left, number<R>(1), number<R>(-1));
        const auto same = number<R>(0) < sign_low * sign_y;
        low = select(same, x, low);
        high = select(same, high, x);
        const R slope = y.partial[0];
        const auto flat = slope == number<R>(0);
        const R newton = x - y.value / select(flat, number<R>(1), slope);
        const R middle = half * (low + high);
        if (i + 3 < last && !in_any_lane(flat) && in_all_lanes(abs(R(newton - x)) <= small)) { last = i + 3; }
        if (i >= last - 3) {
            x = select(flat, x, newton);
        } else if (i % 3 == 2) {
            x = middle;
        } else {
            // Newton's point counts as outside when the slope is zero.
            const R kept = select(low < newton, newton, middle);
            x = select(flat, middle, select(kept < high, kept, middle));
        }
    }
    return x;
}

/// The root of an almost straight function by Newton's steps alone, from a start near it: far cheaper than `find_root`
/// where a physical model is known to be close to linear. The caller judges the answer: a function without a root gives a
/// number that is none.
/// @param f     callable with R and with a dual of it
/// @param small a step so small that the slope is known: one more step along it changes the last digits, and there the
///              search ends, but for one step for every dual that carries a derivative out of it and leaves the value as it
///              is
template <real R, class F>
[[nodiscard]] constexpr R newton_root(F&& f, R x, const std::type_identity_t<R>& small = number<R>(0), int steps = 6) {
    const auto look = [&] { return dual<R, 1>(f(dual<R, 1>::variable(x, 0))); };
    bool arrived = false;
    for (int i = 0; i < steps && !arrived; ++i) {
        const dual<R, 1> y = look();
        const R d = R(y.value / y.partial[0]);
        x = R(x - d);
        arrived = in_all_lanes(abs(d) <= small);
        if (arrived) { x = R(x - f(x) / y.partial[0]); }
    }
    for (int i = 0; i < derivatives_in<R> && arrived; ++i) {
        const dual<R, 1> y = look();
        const R d = R(y.value / y.partial[0]);
        x = R(x - (d - without_derivatives(d)));
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
