#pragma once
/// @file
/// What the ends of a stiff string do to its waves: the phase that each end adds, and the partials that follow.
///
/// Source: the beam under tension, EI y'''' - T y'' = mu w^2 y, with a boundary layer at each end; derived here, checked
/// against finite elements (tests/published/strings).

#include "../core/real.hpp"

namespace tautline::kernel {

/// The phase that an end adds, and how fast it grows with x.
template <class R>
struct end_phase {
    R phase{}, slope{};
};

/// Phase that an end of factor k in [0, 1] adds to a wave of wave number a, with `x = a e` and e the bending share.
///
/// The end holds the string's direction as a spring of `q sqrt(EI T)`, `q = k/(1 - k)`. Near it the string is
/// `sin(a s - psi) + sin(psi) exp(-s sqrt(1 + x^2)/e)`; the moment of the spring equals that of the string there, which
/// gives `tan psi = k x/((1 - k)(1 + 2 x^2) + k sqrt(1 + x^2))`. k = 0 is a hinge, 1 a clamp; 1/2 is an edge over which
/// the string runs on without mass: beyond it the bending dies out as exp(-s/e), which acts as a spring of q = 1.
template <class R>
[[nodiscard]] end_phase<R> end_phase_of(const R& x, const R& k) {
    const R one = number<R>(1), two = number<R>(2), x2 = x * x, free = one - k, root = sqrt(R(one + x2));
    const R across = k * x, along = free * (one + two * x2) + k * root;
    return {atan(R(across / along)), k * (free * (one - two * x2) + k / root) / (across * across + along * along)};
}

/// Ratio of partial n of a stiff string to the ideal string's fundamental, from the bending share e and the factors of
/// both ends: `a sqrt(1 + (a e)^2)/pi` with `a = n pi + psi_1 + psi_2`.
///
/// For ends of 0 that is exactly `n sqrt(1 + B n^2)`. It leaves out that the boundary layers of both ends meet in the
/// middle, an effect of the size of exp(-1/e). The effect is nothing up to e = 0.05, at most 0.02 cents flat at 0.1,
/// and 1.7 cents at 0.2, where the string is more of a bar. Newton's steps solve `x = e a`, where e a changes by at
/// most a fifth of a change of x. So three steps reach the last digit. One more carries a first derivative, another a
/// second, and one is spare.
template <class R>
[[nodiscard, gnu::noinline]] R partial_ratio(int n, const R& e, const R& first, const R& second) {
    const R one = number<R>(1), flat = number<R>(n) * pi<R>();
    R a = flat, x = e * flat;
    for (int i = 0; i < 6; ++i) {
        const end_phase<R> p = end_phase_of<R>(x, first), q = end_phase_of<R>(x, second);
        a = flat + p.phase + q.phase;
        x = x - (x - e * a) / (one - e * (p.slope + q.slope));
    }
    return a * sqrt(R(one + x * x)) / pi<R>();
}

} // namespace tautline::kernel
