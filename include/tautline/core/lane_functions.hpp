#pragma once
/// @file
/// Elementary functions by arithmetic and choice alone, for numbers side by side: packs and rows. Standard libraries
/// compute them one by one.

#include "real.hpp"

namespace tautline::kernel {

/// log2 of `part 2^power` by the series of artanh on [sqrt(1/2), sqrt(2)], within two units in the last place. `part` is
/// in [1/2, 1), `power` a whole number.
template <class V>
[[nodiscard, gnu::always_inline]] inline V log2_from_parts(V part, V power) {
    const V one = number<V>(1);
    const auto low = part < number<V>(std::numbers::sqrt2_v<long double> / 2);
    part = select(low, V(part + part), part);
    power = select(low, V(power - one), power);
    const V s = (part - one) / (part + one), s2 = s * s, s4 = s2 * s2;
    // Two sums, each of every other term, so that neither waits for the other.
    // Terms written out, so that each is a constant of all places.
    const auto sum = [&s4](auto last, auto... others) __attribute__((always_inline)) {
        V all = number<V>(1 / static_cast<long double>(last));
        ((all = all * s4 + number<V>(1 / static_cast<long double>(others))), ...);
        return all;
    };
    const V even = sum(21, 17, 13, 9, 5, 1), odd = sum(23, 19, 15, 11, 7, 3);
    return power + s * (even + odd * s2) * number<V>(2 / std::numbers::ln2_v<long double>);
}

/// The arc tangent. Source: S. L. Moshier, Methods and Programs for Mathematical Functions (1989): rational
/// approximation of atan, from memory; a test holds it against the standard library.
template <class V>
[[nodiscard, gnu::always_inline]] inline V atan_by_ratio(const V& given) {
    const V one = number<V>(1), zero = number<V>(0);
    const auto negative = given < zero;
    V x = select(negative, V(-given), given);
    const auto large = number<V>(2.41421356237309504880L) < x, middle = number<V>(0.66L) < x && !large;
    const V base = select(large, number<V>(std::numbers::pi_v<long double> / 2),
                          select(middle, number<V>(std::numbers::pi_v<long double> / 4), zero));
    // -1/x where it is large, (x - 1)/(x + 1) in the middle: one quotient for all.
    x = select(large, V(-one), select(middle, V(x - one), x)) / select(large, x, select(middle, V(x + one), one));
    const V z = x * x;
    const V p = (((number<V>(-8.750608600031904122785e-1L) * z + number<V>(-1.615753718733365076637e1L)) * z +
                  number<V>(-7.500855792314704667340e1L)) *
                     z +
                 number<V>(-1.228866684490136173410e2L)) *
                    z +
                number<V>(-6.485021904942025371773e1L);
    const V q = ((((z + number<V>(2.485846490142306297962e1L)) * z + number<V>(1.650270098316988542046e2L)) * z +
                  number<V>(4.328810604912902668951e2L)) *
                     z +
                 number<V>(4.853903996359136964868e2L)) *
                    z +
                number<V>(1.945506571482613964425e2L);
    const V result = base + (x + x * (z * p / q));
    return select(negative, V(-result), result);
}

/// The angle of the direction (x, y).
template <class V>
[[nodiscard, gnu::always_inline]] inline V atan2_by_ratio(const V& y, const V& x) {
    const V zero = number<V>(0), pi = number<V>(std::numbers::pi_v<long double>);
    const auto upright = x == zero; // there the quotient would be infinite, or not a number
    const V leaning = atan_by_ratio(V(y / select(upright, number<V>(1), x)));
    const V behind = select(y < zero, V(leaning - pi), V(leaning + pi));
    const V half = number<V>(std::numbers::pi_v<long double> / 2);
    return select(upright, select(y < zero, V(-half), select(zero < y, half, zero)), select(x < zero, behind, leaning));
}

} // namespace tautline::kernel
