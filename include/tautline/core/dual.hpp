#pragma once
/// @file
/// Forward-mode dual numbers: a value with its N partial derivatives, carried through the same code as a plain number.
///
/// Source: the chain rule; A. Griewank and A. Walther, "Evaluating Derivatives" (2nd ed., 2008), ch. 3 (from memory).

#include <array>
#include <cstddef>

#include "real.hpp"

namespace tautline {

/// A value and its partial derivatives with respect to N inputs. `R` is any Real, another dual or a pack included.
/// Comparisons look at the value only, so a search takes the same path as its plain twin.
template <class R, std::size_t N>
struct dual {
    R value{};                  ///< the function's value
    std::array<R, N> partial{}; ///< its derivatives by the N inputs

    constexpr dual() = default;
    /// A constant: all partials zero.
    constexpr dual(const R& v) : value(v) {}
    /// A constant from any built-in number.
    template <class S>
    requires(std::is_arithmetic_v<S> && !std::is_same_v<S, R>) constexpr dual(S v)
        : value(number<R>(static_cast<long double>(v))) {}
    /// A value with its partial derivatives.
    constexpr dual(const R& v, const std::array<R, N>& p) : value(v), partial(p) {}

    /// The independent variable number `index`, of value `v`.
    [[nodiscard]] static constexpr dual variable(const R& v, std::size_t index) {
        dual d(v);
        d.partial[index] = number<R>(1);
        return d;
    }

    /// f(value) with derivative `slope`: how every elementary function is carried.
    [[nodiscard]] constexpr dual chained(const R& f, const R& slope) const {
        dual d(f);
        for (std::size_t i = 0; i < N; ++i) { d.partial[i] = slope * partial[i]; }
        return d;
    }

    /// @{
    /// Arithmetic by the chain rule; comparisons look at the values only.
    constexpr dual operator-() const { return chained(-value, number<R>(-1)); }
    constexpr dual operator+() const { return *this; }
    constexpr dual& operator+=(const dual& b) { return *this = *this + b; }
    constexpr dual& operator-=(const dual& b) { return *this = *this - b; }
    constexpr dual& operator*=(const dual& b) { return *this = *this * b; }
    constexpr dual& operator/=(const dual& b) { return *this = *this / b; }

    friend constexpr dual operator+(const dual& a, const dual& b) {
        return combined(a, b, a.value + b.value, number<R>(1), number<R>(1));
    }
    friend constexpr dual operator-(const dual& a, const dual& b) {
        return combined(a, b, a.value - b.value, number<R>(1), number<R>(-1));
    }
    friend constexpr dual operator*(const dual& a, const dual& b) {
        return combined(a, b, a.value * b.value, b.value, a.value);
    }
    friend constexpr dual operator/(const dual& a, const dual& b) {
        const R q = a.value / b.value;
        return combined(a, b, q, number<R>(1) / b.value, -q / b.value);
    }

    friend constexpr auto operator<(const dual& a, const dual& b) { return a.value < b.value; }
    friend constexpr auto operator>(const dual& a, const dual& b) { return a.value > b.value; }
    friend constexpr auto operator<=(const dual& a, const dual& b) { return a.value <= b.value; }
    friend constexpr auto operator>=(const dual& a, const dual& b) { return a.value >= b.value; }
    friend constexpr auto operator==(const dual& a, const dual& b) { return a.value == b.value; }
    friend constexpr auto operator!=(const dual& a, const dual& b) { return a.value != b.value; }
    /// @}

    /// f of two duals with its two partial slopes.
    [[nodiscard]] static constexpr dual combined(const dual& a, const dual& b, const R& f, const R& fa, const R& fb) {
        dual d(f);
        for (std::size_t i = 0; i < N; ++i) { d.partial[i] = fa * a.partial[i] + fb * b.partial[i]; }
        return d;
    }
};

template <class R, std::size_t N>
struct scalar_of<dual<R, N>> {
    using type = scalar_of_t<R>;
};

/// How often derivatives are taken in a number type: 0 for plain numbers, 1 for a dual, 2 for a dual of duals.
template <class R>
inline constexpr int derivatives_in = 0;
/// One more for each dual around it.
template <class R, std::size_t N>
inline constexpr int derivatives_in<dual<R, N>> = derivatives_in<R> + 1;

/// The same value as a constant.
template <class R>
[[nodiscard]] constexpr R without_derivatives(const R& x) {
    return x;
}
/// The same value as a constant.
template <class R, std::size_t N>
[[nodiscard]] constexpr dual<R, N> without_derivatives(const dual<R, N>& x) {
    return dual<R, N>(without_derivatives(x.value));
}

/// The plain value under any number of duals.
template <class R>
[[nodiscard]] constexpr const R& value_of(const R& x) {
    return x;
}
/// The plain value under any number of duals.
template <class R, std::size_t N>
[[nodiscard]] constexpr const auto& value_of(const dual<R, N>& x) {
    return value_of(x.value);
}

/// `a` where the mask holds, else `b`, partials and all.
// A template on the mask so that a pack's mask is taken as it is, and a bool too.
template <class Mask, class R, std::size_t N>
[[nodiscard]] constexpr dual<R, N> select(const Mask& m, const dual<R, N>& a, const dual<R, N>& b) {
    dual<R, N> d(select(m, a.value, b.value));
    for (std::size_t i = 0; i < N; ++i) { d.partial[i] = select(m, a.partial[i], b.partial[i]); }
    return d;
}
/// `a` where the mask holds, else `b`, partials and all.
template <class R, std::size_t N>
[[nodiscard]] constexpr dual<R, N> select(bool m, const dual<R, N>& a, const dual<R, N>& b) {
    return m ? a : b;
}

/// @{
/// The function of that name by the chain rule, angles in radians.
template <class R, std::size_t N>
[[nodiscard]] constexpr dual<R, N> sqrt(const dual<R, N>& a) {
    const R s = sqrt(a.value);
    return a.chained(s, number<R>(0.5L) / s);
}
template <class R, std::size_t N>
[[nodiscard]] constexpr dual<R, N> exp2(const dual<R, N>& a) {
    const R e = exp2(a.value);
    return a.chained(e, e * number<R>(std::numbers::ln2_v<long double>));
}
template <class R, std::size_t N>
[[nodiscard]] constexpr dual<R, N> log2(const dual<R, N>& a) {
    return a.chained(log2(a.value), number<R>(std::numbers::log2e_v<long double>) / a.value);
}
template <class R, std::size_t N>
[[nodiscard]] dual<R, N> exp(const dual<R, N>& a) {
    const R e = exp(a.value);
    return a.chained(e, e);
}
template <class R, std::size_t N>
[[nodiscard]] dual<R, N> log(const dual<R, N>& a) {
    return a.chained(log(a.value), number<R>(1) / a.value);
}
/// @}
/// x to a constant power.
template <class R, std::size_t N>
[[nodiscard]] dual<R, N> pow(const dual<R, N>& a, const std::type_identity_t<R>& y) {
    return a.chained(pow(a.value, y), y * pow(a.value, R(y - number<R>(1))));
}
/// x to a power that varies too; x > 0.
template <class R, std::size_t N>
[[nodiscard]] dual<R, N> pow(const dual<R, N>& a, const dual<R, N>& y) {
    const R f = pow(a.value, y.value);
    return dual<R, N>::combined(a, y, f, y.value * f / a.value, f * log(a.value));
}
/// @{
/// The function of that name by the chain rule, angles in radians.
template <class R, std::size_t N>
[[nodiscard]] dual<R, N> sin(const dual<R, N>& a) {
    return a.chained(sin(a.value), cos(a.value));
}
template <class R, std::size_t N>
[[nodiscard]] dual<R, N> cos(const dual<R, N>& a) {
    return a.chained(cos(a.value), -sin(a.value));
}
template <class R, std::size_t N>
[[nodiscard]] dual<R, N> tan(const dual<R, N>& a) {
    const R t = tan(a.value);
    return a.chained(t, number<R>(1) + t * t);
}
template <class R, std::size_t N>
[[nodiscard]] dual<R, N> asin(const dual<R, N>& a) {
    return a.chained(asin(a.value), number<R>(1) / sqrt(R(number<R>(1) - a.value * a.value)));
}
template <class R, std::size_t N>
[[nodiscard]] dual<R, N> acos(const dual<R, N>& a) {
    return a.chained(acos(a.value), number<R>(-1) / sqrt(R(number<R>(1) - a.value * a.value)));
}
template <class R, std::size_t N>
[[nodiscard]] dual<R, N> atan(const dual<R, N>& a) {
    return a.chained(atan(a.value), number<R>(1) / (number<R>(1) + a.value * a.value));
}
template <class R, std::size_t N>
[[nodiscard]] dual<R, N> atan2(const dual<R, N>& y, const std::type_identity_t<dual<R, N>>& x) {
    const R r2 = x.value * x.value + y.value * y.value;
    return dual<R, N>::combined(y, x, atan2(y.value, x.value), x.value / r2, -y.value / r2);
}
/// @}

static_assert(real<float> && real<double> && real<long double> && real<dual<double, 3>> && real<dual<dual<double, 1>, 2>>);

} // namespace tautline
