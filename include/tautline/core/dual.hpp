#pragma once
/// @file
/// Forward-mode dual numbers: a value with its N partial derivatives, carried through the same code as a plain number.
///
/// Source: the chain rule; A. Griewank and A. Walther, "Evaluating Derivatives" (2nd ed., 2008), ch. 3 (from memory).

#include <array>
#include <cstddef>
#include <type_traits>
#include <utility>

#include "real.hpp"

namespace tautline {

/// A value and its partial derivatives with respect to N inputs. `R` is any Real, also another dual or a pack.
/// Comparisons look at the value only, so a search takes the same path as with plain numbers.
///
/// `P` is the type of the partials: R itself, or a pack of its scalars. Each lane of that pack is an input of its own:
/// `dual<double, N, pack<double>>` has `N` times `lanes_of<pack<double>>::count` inputs, so with AVX2, where a pack has
/// four lanes, sixteen inputs are N = 4 and forty N = 10; with SSE2 alone a pack has two. `variable(v, i)` counts the
/// inputs through all lanes, input i is lane `i % lanes` of `partial[i / lanes]`. Inputs that do not fill the last pack
/// leave lanes whose derivatives are 0. Under g++ packs take about 0.6 of the time that as many partials of type R take.
template <class R, std::size_t N, class P = R>
struct dual {
    R value;                  ///< the number itself
    std::array<P, N> partial; ///< its derivative by each input

    constexpr dual() : value(), partial() {}
    /// A constant: all partials zero.
    constexpr dual(const R& v) : value(v), partial() {}
    /// A constant from any built-in number.
    template <class S>
    requires(std::is_arithmetic_v<S> && !std::is_same_v<S, R>) constexpr dual(S v)
        : value(number<R>(static_cast<long double>(v))), partial() {}
    /// A value with its partial derivatives.
    constexpr dual(const R& v, const std::array<P, N>& p) : value(v), partial(p) {}

    // Member by member: g++ copies a struct in pieces of 16 bytes, and the next operation, which loads 32, waits for both.
    /// A copy.
    [[gnu::always_inline]] constexpr dual(const dual& b)
        : dual(
              b.value, [&b](std::size_t i) __attribute__((always_inline))->const P& { return b.partial[i]; },
              all_partials{}) {}
    /// A copy.
    [[gnu::always_inline]] constexpr dual& operator=(const dual& b) {
        value = b.value;
        for (std::size_t i = 0; i < N; ++i) { partial[i] = b.partial[i]; }
        return *this;
    }

    /// The independent variable number `index`, of value `v`.
    [[nodiscard]] static constexpr dual variable(const R& v, std::size_t index) {
        dual d(v);
        if constexpr (std::is_same_v<P, R>) {
            d.partial[index] = number<R>(1);
        } else {
            lanes_of<P>::set(d.partial[index / lanes_of<P>::count], index % lanes_of<P>::count, scalar_of_t<P>(1));
        }
        return d;
    }

    /// The dual of f(value), where f has the derivative `slope`: every elementary function is made with it.
    [[nodiscard, gnu::always_inline]] constexpr dual chained(const R& f, const R& slope) const {
        const P s(slope);
        return made(
            f, [&](std::size_t i) __attribute__((always_inline)) { return P(s * partial[i]); });
    }

    /// What `root_or_zero` is for other numbers: the slope of a root of 0 is 0.
    [[nodiscard]] constexpr dual root_or_zero() const {
        const auto none = value <= number<R>(0);
        const R root = sqrt(R(select(none, number<R>(1), value)));
        return chained(select(none, number<R>(0), root), select(none, number<R>(0), R(number<R>(0.5L) / root)));
    }

    /// @{
    /// Arithmetic by the chain rule; comparisons look at the values only.
    [[gnu::always_inline]] constexpr dual operator-() const {
        return made(
            R(-value), [&](std::size_t i) __attribute__((always_inline)) { return P(-partial[i]); });
    }
    [[gnu::always_inline]] constexpr dual operator+() const { return *this; }
    constexpr dual& operator+=(const dual& b) { return *this = *this + b; }
    constexpr dual& operator-=(const dual& b) { return *this = *this - b; }
    constexpr dual& operator*=(const dual& b) { return *this = *this * b; }
    constexpr dual& operator/=(const dual& b) { return *this = *this / b; }

    [[gnu::always_inline]] friend constexpr dual operator+(const dual& a, const dual& b) {
        return made(
            R(a.value + b.value), [&](std::size_t i)
                                      __attribute__((always_inline)) { return P(a.partial[i] + b.partial[i]); });
    }
    [[gnu::always_inline]] friend constexpr dual operator-(const dual& a, const dual& b) {
        return made(
            R(a.value - b.value), [&](std::size_t i)
                                      __attribute__((always_inline)) { return P(a.partial[i] - b.partial[i]); });
    }
    [[gnu::always_inline]] friend constexpr dual operator*(const dual& a, const dual& b) {
        return combined(a, b, a.value * b.value, b.value, a.value);
    }
    [[gnu::always_inline]] friend constexpr dual operator/(const dual& a, const dual& b) {
        const R q = a.value / b.value, per_b = number<R>(1) / b.value;
        return combined(a, b, q, per_b, R(-q * per_b));
    }

    friend constexpr auto operator<(const dual& a, const dual& b) { return a.value < b.value; }
    friend constexpr auto operator>(const dual& a, const dual& b) { return a.value > b.value; }
    friend constexpr auto operator<=(const dual& a, const dual& b) { return a.value <= b.value; }
    friend constexpr auto operator>=(const dual& a, const dual& b) { return a.value >= b.value; }
    friend constexpr auto operator==(const dual& a, const dual& b) { return a.value == b.value; }
    friend constexpr auto operator!=(const dual& a, const dual& b) { return a.value != b.value; }
    /// @}

    /// The dual of a function of two duals, from its value and its two partial slopes.
    [[nodiscard, gnu::always_inline]] static constexpr dual combined(const dual& a, const dual& b, const R& f, const R& fa,
                                                                     const R& fb) {
        const P sa(fa), sb(fb);
        return made(
            f, [&](std::size_t i) __attribute__((always_inline)) { return P(sa * a.partial[i] + sb * b.partial[i]); });
    }
    /// A dual whose partial derivative i is `each(i)`, made in its place.
    template <class Each>
    [[nodiscard, gnu::always_inline]] static constexpr dual made(const R& v, Each&& each) {
        return dual(v, each, all_partials{});
    }

private:
    using all_partials = std::make_index_sequence<N>;

    template <class Each, std::size_t... i>
    [[gnu::always_inline]] constexpr dual(const R& v, Each&& each, std::index_sequence<i...>)
        : value(v), partial{{each(i)...}} {}
};

template <class R, std::size_t N, class P>
struct scalar_of<dual<R, N, P>> {
    using type = scalar_of_t<R>;
};

/// How often derivatives are taken in a number type: 0 for plain numbers, 1 for a dual, 2 for a dual of duals.
template <class R>
inline constexpr int derivatives_in = 0;
/// One more than in the number type inside the dual.
template <class R, std::size_t N, class P>
inline constexpr int derivatives_in<dual<R, N, P>> = derivatives_in<R> + 1;

/// The same value as a constant.
template <class R>
[[nodiscard]] constexpr R without_derivatives(const R& x) {
    return x;
}
/// The same value as a constant.
template <class R, std::size_t N, class P>
[[nodiscard]] constexpr dual<R, N, P> without_derivatives(const dual<R, N, P>& x) {
    return dual<R, N, P>(without_derivatives(x.value));
}

/// The plain value under any number of duals.
template <class R>
[[nodiscard]] constexpr const R& value_of(const R& x) {
    return x;
}
/// The plain value under any number of duals.
template <class R, std::size_t N, class P>
[[nodiscard]] constexpr const auto& value_of(const dual<R, N, P>& x) {
    return value_of(x.value);
}

namespace kernel {
template <class R>
using value_of_t = std::remove_cvref_t<decltype(value_of(std::declval<const R&>()))>;
} // namespace kernel

/// The number type in which a search for a place compares. For a dual it is the type of the plain value, if that is a
/// number of its own (lanes of a pack have places of their own, even one lane alone). Otherwise it is R itself.
template <class R>
using search_t =
    std::conditional_t<(derivatives_in<R> > 0) && std::is_same_v<scalar_of_t<kernel::value_of_t<R>>, kernel::value_of_t<R>>,
                       kernel::value_of_t<R>, R>;
/// A number as a search compares it (`search_t`).
template <class R>
[[nodiscard]] constexpr const search_t<R>& searched(const R& x) {
    if constexpr (std::is_same_v<search_t<R>, R>) {
        return x;
    } else {
        return value_of(x);
    }
}

/// `a` where the mask holds, else `b`, partials and all.
// A template on the mask so that a pack's mask is taken as it is, and a bool too.
template <class Mask, class R, std::size_t N, class P>
[[nodiscard]] constexpr dual<R, N, P> select(const Mask& m, const dual<R, N, P>& a, const dual<R, N, P>& b) {
    return dual<R, N, P>::made(
        select(m, a.value, b.value), [&](std::size_t i) __attribute__((always_inline)) {
            return P(select(m, a.partial[i], b.partial[i]));
        });
}
/// `a` where the mask holds, else `b`, partials and all.
template <class R, std::size_t N, class P>
[[nodiscard]] constexpr dual<R, N, P> select(bool m, const dual<R, N, P>& a, const dual<R, N, P>& b) {
    return m ? a : b;
}

/// @{
/// The function of that name by the chain rule, angles in radians.
template <class R, std::size_t N, class P>
[[nodiscard]] constexpr dual<R, N, P> sqrt(const dual<R, N, P>& a) {
    const R s = sqrt(a.value);
    return a.chained(s, number<R>(0.5L) / s);
}
template <class R, std::size_t N, class P>
[[nodiscard]] constexpr dual<R, N, P> exp2(const dual<R, N, P>& a) {
    const R e = exp2(a.value);
    return a.chained(e, e * number<R>(std::numbers::ln2_v<long double>));
}
template <class R, std::size_t N, class P>
[[nodiscard]] constexpr dual<R, N, P> log2(const dual<R, N, P>& a) {
    return a.chained(log2(a.value), number<R>(std::numbers::log2e_v<long double>) / a.value);
}
template <class R, std::size_t N, class P>
[[nodiscard]] dual<R, N, P> exp(const dual<R, N, P>& a) {
    const R e = exp(a.value);
    return a.chained(e, e);
}
template <class R, std::size_t N, class P>
[[nodiscard]] dual<R, N, P> log(const dual<R, N, P>& a) {
    return a.chained(log(a.value), number<R>(1) / a.value);
}
/// @}
/// x to a constant power.
template <class R, std::size_t N, class P>
[[nodiscard]] dual<R, N, P> pow(const dual<R, N, P>& a, const std::type_identity_t<R>& y) {
    return a.chained(pow(a.value, y), y * pow(a.value, R(y - number<R>(1))));
}
/// x to a power that varies too; x > 0.
template <class R, std::size_t N, class P>
[[nodiscard]] dual<R, N, P> pow(const dual<R, N, P>& a, const dual<R, N, P>& y) {
    const R f = pow(a.value, y.value);
    return dual<R, N, P>::combined(a, y, f, y.value * f / a.value, f * log(a.value));
}
/// @{
/// The function of that name by the chain rule, angles in radians.
template <class R, std::size_t N, class P>
[[nodiscard]] dual<R, N, P> sin(const dual<R, N, P>& a) {
    return a.chained(sin(a.value), cos(a.value));
}
template <class R, std::size_t N, class P>
[[nodiscard]] dual<R, N, P> cos(const dual<R, N, P>& a) {
    return a.chained(cos(a.value), -sin(a.value));
}
template <class R, std::size_t N, class P>
[[nodiscard]] dual<R, N, P> tan(const dual<R, N, P>& a) {
    const R t = tan(a.value);
    return a.chained(t, number<R>(1) + t * t);
}
template <class R, std::size_t N, class P>
[[nodiscard]] dual<R, N, P> asin(const dual<R, N, P>& a) {
    return a.chained(asin(a.value), number<R>(1) / sqrt(R(number<R>(1) - a.value * a.value)));
}
template <class R, std::size_t N, class P>
[[nodiscard]] dual<R, N, P> acos(const dual<R, N, P>& a) {
    return a.chained(acos(a.value), number<R>(-1) / sqrt(R(number<R>(1) - a.value * a.value)));
}
template <class R, std::size_t N, class P>
[[nodiscard]] dual<R, N, P> atan(const dual<R, N, P>& a) {
    return a.chained(atan(a.value), number<R>(1) / (number<R>(1) + a.value * a.value));
}
template <class R, std::size_t N, class P>
[[nodiscard]] dual<R, N, P> atan2(const dual<R, N, P>& y, const std::type_identity_t<dual<R, N, P>>& x) {
    const R r2 = x.value * x.value + y.value * y.value;
    return dual<R, N, P>::combined(y, x, atan2(y.value, x.value), x.value / r2, -y.value / r2);
}
/// @}

} // namespace tautline
