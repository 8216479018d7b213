#pragma once
/// @file
/// A few built-in numbers side by side inside one solve: a row of frets, of notes, of strings.
///
/// A pack (`pack.hpp`) holds several solves. A row holds several places of one solve, in the vector type that g++ and
/// clang know on every machine, and needs no header of its own. Kernels that take any Real take a row too.

#include <array>
#include <cstdint>

#include "lane_functions.hpp"
#include "quantity.hpp"

namespace tautline {

// One instruction each. The standard library's root sets errno, which keeps compilers from taking two at once, and of a
// choice by comparison they make several instructions.
#if defined(__has_builtin) && defined(__SSE2__)
#if __has_builtin(__builtin_ia32_sqrtpd) && __has_builtin(__builtin_ia32_minpd) && __has_builtin(__builtin_ia32_maxpd) &&  \
    __has_builtin(__builtin_ia32_movmskpd)
#define TAUTLINE_ROWS_OF_SSE2
#endif
#endif

template <class T>
class number_row;

/// Which numbers of a row satisfy a comparison.
template <class T>
class row_mask {
public:
    /// The compiler's own mask.
    using plain = decltype(typename number_row<T>::plain{} < typename number_row<T>::plain{});
    /// From such a mask.
    row_mask(const plain& m) : m_(m) {}
    /// The compiler's own mask.
    [[nodiscard]] const plain& get() const { return m_; }

    /// @{
    /// Logic place by place; `in_all_lanes` and `in_any_lane` are over all places.
    friend row_mask operator&&(const row_mask& a, const row_mask& b) { return plain(a.m_ & b.m_); }
    friend row_mask operator||(const row_mask& a, const row_mask& b) { return plain(a.m_ | b.m_); }
    friend row_mask operator!(const row_mask& a) { return plain(~a.m_); }
    friend bool in_any_lane(const row_mask& a) {
#ifdef TAUTLINE_ROWS_OF_SSE2
        if constexpr (std::is_same_v<T, double>) { return a.bits() != 0; }
#endif
        auto some = a.m_[0];
        for (std::size_t i = 1; i < number_row<T>::count; ++i) { some |= a.m_[i]; }
        return some != 0;
    }
    friend bool in_all_lanes(const row_mask& a) {
#ifdef TAUTLINE_ROWS_OF_SSE2
        if constexpr (std::is_same_v<T, double>) { return a.bits() == 3; }
#endif
        return !in_any_lane(!a);
    }
    /// @}

private:
#ifdef TAUTLINE_ROWS_OF_SSE2
    [[nodiscard]] int bits() const { return __builtin_ia32_movmskpd(reinterpret_cast<typename number_row<T>::plain>(m_)); }
#endif
    plain m_;
};

/// As many numbers of type T as fit into 16 bytes, which every x86-64 and 64-bit ARM takes at once: two doubles or four
/// floats.
template <class T>
class number_row {
public:
    /// How many numbers a row holds.
    static constexpr std::size_t count = 16 / sizeof(T);
    /// The compiler's own vector.
    using plain [[gnu::vector_size(16)]] = T;

    number_row() : v_{} {}
    /// From such a vector.
    number_row(const plain& v) : v_(v) {}
    /// The same number at every place.
    template <class S>
    requires std::is_arithmetic_v<S>
    [[gnu::always_inline]] number_row(S s) : number_row(everywhere(static_cast<T>(s), std::make_index_sequence<count>{})) {}
    /// The numbers `each(0)`, `each(1)`, ...
    template <class Each>
    [[nodiscard, gnu::always_inline]] static number_row made(Each&& each) {
        return made(each, std::make_index_sequence<count>{});
    }
    /// The number at a place.
    [[nodiscard]] T operator[](std::size_t place) const { return v_[place]; }
    /// Puts a number at a place.
    void set(std::size_t place, T s) { v_[place] = s; }

    /// @{
    /// Arithmetic and comparisons, place by place.
    number_row operator-() const { return -v_; }
    number_row operator+() const { return *this; }
    number_row& operator+=(const number_row& b) { return *this = *this + b; }
    number_row& operator-=(const number_row& b) { return *this = *this - b; }
    number_row& operator*=(const number_row& b) { return *this = *this * b; }
    number_row& operator/=(const number_row& b) { return *this = *this / b; }
    friend number_row operator+(const number_row& a, const number_row& b) { return a.v_ + b.v_; }
    friend number_row operator-(const number_row& a, const number_row& b) { return a.v_ - b.v_; }
    friend number_row operator*(const number_row& a, const number_row& b) { return a.v_ * b.v_; }
    friend number_row operator/(const number_row& a, const number_row& b) { return a.v_ / b.v_; }
    friend row_mask<T> operator<(const number_row& a, const number_row& b) { return a.v_ < b.v_; }
    friend row_mask<T> operator>(const number_row& a, const number_row& b) { return a.v_ > b.v_; }
    friend row_mask<T> operator<=(const number_row& a, const number_row& b) { return a.v_ <= b.v_; }
    friend row_mask<T> operator>=(const number_row& a, const number_row& b) { return a.v_ >= b.v_; }
    friend row_mask<T> operator==(const number_row& a, const number_row& b) { return a.v_ == b.v_; }
    friend row_mask<T> operator!=(const number_row& a, const number_row& b) { return a.v_ != b.v_; }
    /// @}
    /// Place by place: `a` where the mask holds, else `b`.
    friend number_row select(const row_mask<T>& m, const number_row& a, const number_row& b) {
        return m.get() ? a.v_ : b.v_;
    }
    /// The lesser, place by place.
    friend number_row min(const number_row& a, const number_row& b) {
#ifdef TAUTLINE_ROWS_OF_SSE2
        if constexpr (std::is_same_v<T, double>) { return plain(__builtin_ia32_minpd(b.v_, a.v_)); }
#endif
        return select(b < a, b, a);
    }
    /// The greater, place by place.
    friend number_row max(const number_row& a, const number_row& b) {
#ifdef TAUTLINE_ROWS_OF_SSE2
        if constexpr (std::is_same_v<T, double>) { return plain(__builtin_ia32_maxpd(b.v_, a.v_)); }
#endif
        return select(a < b, b, a);
    }

    /// @{
    /// The function of that name, place by place, angles in radians.
    friend number_row sqrt(const number_row& a) {
#ifdef TAUTLINE_ROWS_OF_SSE2
        if constexpr (std::is_same_v<T, double>) { return plain(__builtin_ia32_sqrtpd(a.v_)); }
#endif
        return a.of_each([](T x) { return std::sqrt(x); });
    }
    /// What `root_or_zero` is for other numbers.
    [[nodiscard, gnu::always_inline]] number_row root_or_zero() const { return sqrt(max(*this, number_row())); }
    friend number_row log2(const number_row& a) {
        const number_row least(std::numeric_limits<T>::min()), most(std::numeric_limits<T>::max());
        if (!in_all_lanes(min(max(a, least), most) == a)) { // not normal somewhere
            return a.of_each([](T x) { return std::log2(x); });
        }
        // Taken apart as frexp does, by the bits of an IEEE 754 number. An integer added to the low bits of 2^digits adds
        // that number to its value.
        static_assert(std::numeric_limits<T>::is_iec559);
        constexpr int digits = std::numeric_limits<T>::digits - 1;
        // The builtin: some standard libraries lack std::bit_cast.
        constexpr word below = (word(1) << digits) - 1, half = __builtin_bit_cast(word, T(0.5));
        constexpr T base = static_cast<T>(word(1) << digits), bias = base + T(1 - std::numeric_limits<T>::min_exponent);
        const words bits = reinterpret_cast<words>(a.v_);
        return kernel::log2_from_parts(
            number_row(reinterpret_cast<plain>((bits & below) | half)),
            number_row(reinterpret_cast<plain>((bits >> digits) | __builtin_bit_cast(word, base))) - number_row(bias));
    }
    friend number_row exp2(const number_row& a) {
        return a.of_each([](T x) { return std::exp2(x); });
    }
    friend number_row exp(const number_row& a) {
        return a.of_each([](T x) { return std::exp(x); });
    }
    friend number_row log(const number_row& a) {
        return a.of_each([](T x) { return std::log(x); });
    }
    friend number_row pow(const number_row& a, const number_row& b) {
        return made([&](std::size_t i) { return std::pow(a[i], b[i]); });
    }
    friend number_row sin(const number_row& a) {
        return a.of_each([](T x) { return std::sin(x); });
    }
    friend number_row cos(const number_row& a) {
        return a.of_each([](T x) { return std::cos(x); });
    }
    friend number_row tan(const number_row& a) {
        return a.of_each([](T x) { return std::tan(x); });
    }
    friend number_row asin(const number_row& a) {
        return a.of_each([](T x) { return std::asin(x); });
    }
    friend number_row acos(const number_row& a) {
        return a.of_each([](T x) { return std::acos(x); });
    }
    friend number_row atan(const number_row& a) { return kernel::atan_by_ratio(a); }
    friend number_row atan2(const number_row& y, const number_row& x) { return kernel::atan2_by_ratio(y, x); }
    /// @}

private:
    // A vector by itself is not returned: without SSE that would be another calling convention.
    template <std::size_t... i>
    [[gnu::always_inline]] static number_row everywhere(T s, std::index_sequence<i...>) {
        return plain{(static_cast<void>(i), s)...};
    }
    template <class Each, std::size_t... i>
    [[gnu::always_inline]] static number_row made(Each& each, std::index_sequence<i...>) {
        return plain{each(i)...};
    }
    template <class F>
    [[nodiscard]] number_row of_each(F f) const {
        return made([&](std::size_t i) { return f(v_[i]); });
    }

    using word = std::conditional_t<sizeof(T) == 8, std::uint64_t, std::uint32_t>;
    using words [[gnu::vector_size(16)]] = word;

    plain v_;
};
#undef TAUTLINE_ROWS_OF_SSE2

/// The built-in number of a row.
template <class T>
struct scalar_of<number_row<T>> {
    /// The built-in number.
    using type = T;
};
/// The places of a row.
template <class T>
struct lanes_of<number_row<T>> {
    /// How many there are.
    static constexpr std::size_t count = number_row<T>::count;
    /// The number at one place.
    [[nodiscard]] static T get(const number_row<T>& x, std::size_t place) { return x[place]; }
    /// Puts a number at one place.
    static void set(number_row<T>& x, std::size_t place, T v) { x.set(place, v); }
};

/// What a loop over places of one solve takes at a time: a row of doubles, or one number of any other type.
template <class R>
using row_of = std::conditional_t<std::is_same_v<R, double>, number_row<R>, R>;
/// How many places of one solve a number of this type stands for: lanes of a pack are solves of their own.
template <class V>
inline constexpr std::size_t places_in = 1;
/// As many as the row holds.
template <class T>
inline constexpr std::size_t places_in<number_row<T>> = number_row<T>::count;
/// The numbers `each(0)`, `each(1)`, ... of as many places as V stands for.
template <class V, class Each>
[[nodiscard, gnu::always_inline]] constexpr V row_from(Each&& each) {
    if constexpr (places_in<V> == 1) {
        return V(each(std::size_t(0)));
    } else {
        return V::made(each);
    }
}
/// The number at one of the places that V stands for.
template <class V>
[[nodiscard, gnu::always_inline]] constexpr auto at_place(const V& x, std::size_t place) {
    if constexpr (places_in<V> == 1) {
        return x;
    } else {
        return x[place];
    }
}

/// A quantity at every place that V stands for; itself where that is one.
template <class V, class U, class R>
[[nodiscard, gnu::always_inline]] constexpr decltype(auto) everywhere(const bu::quantity<U, R>& q) {
    if constexpr (std::is_same_v<V, R>) {
        return static_cast<const bu::quantity<U, R>&>(q);
    } else {
        return bu::quantity<U, V>::from_value(V(q.value()));
    }
}

/// The angles of several directions (x, y), as many side by side as a row holds.
template <class R, std::size_t N>
[[nodiscard, gnu::always_inline]] inline std::array<R, N> angles_of(const std::array<R, N>& y, const std::array<R, N>& x) {
    using V = row_of<R>;
    static_assert(N % places_in<V> == 0);
    std::array<R, N> angles;
    for (std::size_t i = 0; i < N; i += places_in<V>) {
        const V some = atan2(row_from<V>([&](std::size_t k) { return y[i + k]; }),
                             row_from<V>([&](std::size_t k) { return x[i + k]; }));
        for (std::size_t k = 0; k < places_in<V>; ++k) { angles[i + k] = at_place(some, k); }
    }
    return angles;
}

/// The sum over the places of a row, or of a dual of rows; of any other number itself.
template <class D, class V>
[[nodiscard]] constexpr D sum_of_places(const V& x) {
    if constexpr (std::is_same_v<V, D>) {
        return x;
    } else if constexpr (derivatives_in<V> > 0) {
        D sum(sum_of_places<decltype(D::value)>(x.value));
        for (std::size_t i = 0; i < x.partial.size(); ++i) {
            sum.partial[i] = sum_of_places<decltype(D::value)>(x.partial[i]);
        }
        return sum;
    } else {
        D sum = x[0];
        for (std::size_t k = 1; k < V::count; ++k) { sum += x[k]; }
        return sum;
    }
}

/// The quantities `each(0)`, `each(1)`, ... as one quantity.
template <class V, class Each>
[[nodiscard, gnu::always_inline]] constexpr auto quantity_row(Each&& each) {
    using Q = std::remove_cvref_t<decltype(each(std::size_t(0)))>;
    return bu::quantity<typename Q::unit_type, V>::from_value(
        row_from<V>([&](std::size_t place) { return each(place).value(); }));
}

} // namespace tautline
