#pragma once
/// @file
/// What the ends of a string that resists bending do to its waves: the phase each adds, and the partials that follow.
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

/// Phase that an end of factor k in [0, 1] adds to a wave of wave number a, for `x = a e`, e the bending share.
///
/// The end holds the string's direction as a spring of `q sqrt(EI T)`, `q = k/(1 - k)`. Near it the string is
/// `sin(a s - psi) + sin(psi) exp(-s sqrt(1 + x^2)/e)`; that the spring's moment is the string's own there gives
/// `tan psi = k x/((1 - k)(1 + 2 x^2) + k sqrt(1 + x^2))`. k = 0 is a hinge, 1 a clamp; 1/2 is an edge over which a string
/// without mass runs on: there it dies out as exp(-s/e), which is a spring of q = 1.
template <class R>
[[nodiscard]] end_phase<R> end_phase_of(const R& x, const R& k) {
    const R one = number<R>(1), two = number<R>(2), x2 = x * x, free = one - k, root = sqrt(R(one + x2));
    const R across = k * x, along = free * (one + two * x2) + k * root;
    return {atan(R(across / along)), k * (free * (one - two * x2) + k / root) / (across * across + along * along)};
}

/// Partial n of a stiff string over the ideal string's fundamental, for the bending share e and the factors of both ends:
/// `a sqrt(1 + (a e)^2)/pi` with `a = n pi + psi_1 + psi_2`.
///
/// For ends of 0 that is exactly `n sqrt(1 + B n^2)`. What is left out is that the boundary layers of both ends meet in the
/// middle, of the size of exp(-1/e): nothing to e = 0.05, at most 0.02 cents flat at 0.1 and 1.7 at 0.2, where it is a bar.
/// Newton's steps on `x = e a`, where e a moves by a fifth of x at most: three reach the last digit, one more each carries
/// a first and a second derivative.
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
