#pragma once
/// @file
/// What a number type must offer: the operations that a kernel may use, for float, double, long double, dual numbers
/// and SIMD packs alike.
///
/// Kernels never branch on a Real. They compare, which gives a mask, and choose with `select`. For built-in numbers the
/// mask is a bool; a pack's mask has one bool per lane.

// Before any header: libstdc++ takes these macros away.
#if defined(min) || defined(max)
#error "min and max are macros here, as <windows.h> makes them. Define NOMINMAX before it is included."
#endif

#include <cmath>
#include <concepts>
#include <cstddef>
#include <limits>
#include <numbers>
#include <type_traits>

namespace tautline {

/// The built-in number at the bottom of a number type: `double` for `double`, for `dual<double, N>`, for a pack of doubles.
/// A caller's own number type specialises this.
template <class R>
struct scalar_of {
    /// The built-in number.
    using type = R;
};
/// The scalar of a number type.
template <class R>
using scalar_of_t = typename scalar_of<R>::type;

/// How many numbers lie side by side in a number type, and how to reach one of them. A pack specialises this.
template <class R>
struct lanes_of {
    static constexpr std::size_t count = 1; ///< numbers side by side
    /// The number in a lane.
    [[nodiscard]] static constexpr R get(const R& x, std::size_t) { return x; }
    /// Puts a number into a lane.
    static constexpr void set(R& x, std::size_t, const R& v) { x = v; }
};

/// A constant as a Real. It is made through the scalar, so that packs of floats accept `number<R>(0.5)`.
template <class R>
[[nodiscard]] constexpr R number(long double c) {
    return R(static_cast<scalar_of_t<R>>(c));
}

/// The value of a measurement that was not given: NaN. It fails every range, so that a value left out never passes for
/// zero.
template <class R>
[[nodiscard]] constexpr R not_given() {
    return R(std::numeric_limits<scalar_of_t<R>>::quiet_NaN());
}
/// The value of a count that was not given. It lies outside every range.
inline constexpr int not_counted = -1000000000;

/// pi as a Real.
template <class R>
[[nodiscard]] constexpr R pi() {
    return number<R>(std::numbers::pi_v<long double>);
}

// Masks of built-in comparisons -----------------------------------------------------------------------------------

/// True when every lane of a mask is.
[[nodiscard]] constexpr bool in_all_lanes(bool m) noexcept { return m; }
/// True when at least one lane of a mask is.
[[nodiscard]] constexpr bool in_any_lane(bool m) noexcept { return m; }

/// Thrown where the lanes of a pack would need different steps, such as another order of places, or a thing that only
/// one lane has. They cannot be computed side by side, but each can be computed alone.
struct lanes_differ {};

/// The one answer of all lanes to a question that decides the steps of a computation. Throws `lanes_differ` when the
/// lanes differ. For built-in numbers it is the answer itself.
template <class Mask>
[[nodiscard]] constexpr bool one_answer(const Mask& m) {
    if (in_all_lanes(m)) { return true; }
    if (in_any_lane(m)) { throw lanes_differ{}; }
    return false;
}
/// The answer itself.
[[nodiscard]] constexpr bool one_answer(bool m) noexcept { return m; }

/// `a` where the mask holds, else `b`. Kernels choose in this way only. Both sides are evaluated.
template <class T>
[[nodiscard]] constexpr T select(bool m, const T& a, const T& b) {
    return m ? a : b;
}

// Elementary functions of built-in numbers ------------------------------------------------------------------------
// At run time these are the standard library's. `sqrt`, `exp2` and `log2` also work in constant expressions, where
// C++20's standard library does not: fret tables and tensions can then be static.

namespace constant {

/// Square root by Newton's iteration; for constant expressions only.
template <std::floating_point T>
constexpr T sqrt(T x) {
    if (!(x >= T(0))) { return std::numeric_limits<T>::quiet_NaN(); }
    if (x == T(0) || x > std::numeric_limits<T>::max()) { return x; }
    long double scale = 1, v = static_cast<long double>(x);
    while (v > 4) {
        v /= 4;
        scale *= 2;
    }
    while (v < 1) {
        v *= 4;
        scale /= 2;
    }
    long double r = (1 + v) / 2;
    for (int i = 0; i < 8; ++i) { r = (r + v / r) / 2; }
    return static_cast<T>(r * scale);
}

/// 2^x by splitting off the whole octaves and summing the exponential series; for constant expressions only.
template <std::floating_point T>
constexpr T exp2(T x) {
    if (x >= T(std::numeric_limits<T>::max_exponent)) { return std::numeric_limits<T>::infinity(); }
    if (!(x >= T(std::numeric_limits<T>::min_exponent - std::numeric_limits<T>::digits - 1))) {
        return x < T(0) ? T(0) : x; // what is not a number stays so
    }
    auto whole = static_cast<long long>(x);
    const long double rest =
        (static_cast<long double>(x) - static_cast<long double>(whole)) * std::numbers::ln2_v<long double>;
    long double term = 1, sum = 1;
    for (int k = 1; k < 30; ++k) {
        term *= rest / k;
        sum += term;
    }
    for (; whole > 0; --whole) { sum *= 2; }
    for (; whole < 0; ++whole) { sum /= 2; }
    return static_cast<T>(sum);
}

/// Logarithm to base 2 by the series of artanh on [1, 2); for constant expressions only.
template <std::floating_point T>
constexpr T log2(T x) {
    if (!(x > T(0))) { return x == T(0) ? -std::numeric_limits<T>::infinity() : std::numeric_limits<T>::quiet_NaN(); }
    if (x > std::numeric_limits<T>::max()) { return x; }
    long double v = static_cast<long double>(x), whole = 0;
    while (v >= 2) {
        v /= 2;
        whole += 1;
    }
    while (v < 1) {
        v *= 2;
        whole -= 1;
    }
    const long double u = (v - 1) / (v + 1), u2 = u * u;
    long double term = u, sum = 0;
    for (int k = 1; k < 90; k += 2) {
        sum += term / k;
        term *= u2;
    }
    return static_cast<T>(whole + 2 * sum / std::numbers::ln2_v<long double>);
}

} // namespace constant

/// @{
/// The standard library's function of that name, angles in radians; `sqrt`, `exp2` and `log2` also in constant expressions.
template <std::floating_point T>
[[nodiscard]] constexpr T sqrt(T x) {
    if (std::is_constant_evaluated()) { return constant::sqrt(x); }
    return std::sqrt(x);
}
template <std::floating_point T>
[[nodiscard]] constexpr T exp2(T x) {
    if (std::is_constant_evaluated()) { return constant::exp2(x); }
    return std::exp2(x);
}
template <std::floating_point T>
[[nodiscard]] constexpr T log2(T x) {
    if (std::is_constant_evaluated()) { return constant::log2(x); }
    return std::log2(x);
}
template <std::floating_point T>
[[nodiscard]] T exp(T x) {
    return std::exp(x);
}
template <std::floating_point T>
[[nodiscard]] T log(T x) {
    return std::log(x);
}
template <std::floating_point T>
[[nodiscard]] T pow(T x, std::type_identity_t<T> y) {
    return std::pow(x, y);
}
template <std::floating_point T>
[[nodiscard]] T sin(T x) {
    return std::sin(x);
}
template <std::floating_point T>
[[nodiscard]] T cos(T x) {
    return std::cos(x);
}
template <std::floating_point T>
[[nodiscard]] T tan(T x) {
    return std::tan(x);
}
template <std::floating_point T>
[[nodiscard]] T asin(T x) {
    return std::asin(x);
}
template <std::floating_point T>
[[nodiscard]] T acos(T x) {
    return std::acos(x);
}
template <std::floating_point T>
[[nodiscard]] T atan(T x) {
    return std::atan(x);
}
template <std::floating_point T>
[[nodiscard]] T atan2(T y, std::type_identity_t<T> x) {
    return std::atan2(y, x);
}
/// @}

/// Everything that kernels may ask of a number type. Third-party numbers satisfy it when the functions are found by
/// argument-dependent lookup and `scalar_of` names their scalar. (Messages also show a value where it converts to
/// `long double`.)
template <class R>
concept real = !requires {
    typename R::unit_type;
} // a quantity: to find that out by its products takes long to compile
&&std::copyable<R>&& std::default_initializable<R>&& requires(const R a, const R b, R c) {
    R(scalar_of_t<R>{});
    { a + b } -> std::convertible_to<R>;
    { a - b } -> std::convertible_to<R>;
    { a* b } -> std::convertible_to<R>;
    { a / b } -> std::convertible_to<R>;
    { -a } -> std::convertible_to<R>;
    { c += a } -> std::same_as<R&>;
    { in_all_lanes(a < b) } -> std::convertible_to<bool>;
    { in_any_lane(a <= b) } -> std::convertible_to<bool>;
    { in_all_lanes(a == b) } -> std::convertible_to<bool>;
    { in_all_lanes(a < b && a <= b) } -> std::convertible_to<bool>;
    { select(a < b, a, b) } -> std::convertible_to<R>;
    { sqrt(a) } -> std::convertible_to<R>;
    { exp2(a) } -> std::convertible_to<R>;
    { log2(a) } -> std::convertible_to<R>;
    { exp(a) } -> std::convertible_to<R>;
    { log(a) } -> std::convertible_to<R>;
    { pow(a, b) } -> std::convertible_to<R>;
    { sin(a) } -> std::convertible_to<R>;
    { cos(a) } -> std::convertible_to<R>;
    { tan(a) } -> std::convertible_to<R>;
    { asin(a) } -> std::convertible_to<R>;
    { acos(a) } -> std::convertible_to<R>;
    { atan(a) } -> std::convertible_to<R>;
    { atan2(a, b) } -> std::convertible_to<R>;
};

/// The lesser of two Reals, lane by lane.
template <real R>
[[nodiscard, gnu::always_inline]] constexpr R min(const R& a, const std::type_identity_t<R>& b) {
    return select(b < a, b, a);
}
/// The greater of two Reals, lane by lane.
template <real R>
[[nodiscard, gnu::always_inline]] constexpr R max(const R& a, const std::type_identity_t<R>& b) {
    return select(a < b, b, a);
}
/// Magnitude.
template <real R>
[[nodiscard, gnu::always_inline]] constexpr R abs(const R& a) {
    return select(a < number<R>(0), R(-a), a);
}
/// Length of the hypotenuse, by the plain square root: numbers of a setup never come near overflow.
template <real R>
[[nodiscard]] constexpr R hypot(const R& a, const std::type_identity_t<R>& b) {
    return sqrt(R(a * a + b * b));
}
/// Square root that is 0 for 0 and for negative numbers, with a slope of 0 there in place of an infinite one. So
/// lengths of vectors that may be 0 keep finite derivatives.
template <real R>
[[nodiscard, gnu::always_inline]] constexpr R root_or_zero(const R& square) {
    if constexpr (requires { square.root_or_zero(); }) {
        return square.root_or_zero();
    } else {
        const auto none = square <= number<R>(0);
        return select(none, number<R>(0), R(sqrt(select(none, number<R>(1), square))));
    }
}
/// A whole power by repeated multiplication; a negative power is 1 over the positive one.
template <real R>
[[nodiscard]] constexpr R power(const R& a, int n) {
    R r = number<R>(1);
    for (int i = 0; i < (n < 0 ? -n : n); ++i) { r = R(r * a); }
    return n < 0 ? R(number<R>(1) / r) : r;
}
/// Mask of the lanes that hold a finite number.
template <real R>
[[nodiscard]] constexpr auto is_finite(const R& a) {
    // Not tested by a - a == 0, because a constant expression may not make a NaN.
    return abs(a) <= number<R>(static_cast<long double>(std::numeric_limits<scalar_of_t<R>>::max()));
}
/// Whether every lane is a finite number.
template <real R>
[[nodiscard]] constexpr bool all_finite(const R& a) {
    return in_all_lanes(is_finite(a));
}

/// How many places a loop works out side by side, so that compilers can vectorise it for built-in numbers.
template <class R>
inline constexpr std::size_t side_by_side = std::is_floating_point_v<R> ? 8 : 1;

} // namespace tautline
