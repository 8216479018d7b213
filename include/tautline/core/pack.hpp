#pragma once
/// @file
/// Included by name only: it needs <experimental/simd> of libstdc++, and it is faster only where the compiler may use
/// AVX2 or more.
///
/// Several numbers side by side as one Real: a solve over packs does as many solves at once as there are lanes.
/// `over<pack<double>>(model)` puts the same model into every lane, `lanes_of<pack<double>>::set` changes one.
///
/// A caller's own SIMD type can be used too. Wrap it in a class, in a namespace of its own, with the operations of the
/// concept `real`. Add `all`, `any` and `select` for its mask, and specialise `scalar_of` and `lanes_of`.

// With GNU extensions on, libstdc++ declares things constexpr there that clang 14 refuses; without them they are const.
// The headers that <experimental/simd> includes come first, so that only it is read without the extensions.
#if defined(__clang__) && !defined(__STRICT_ANSI__)
#include <bitset>
#include <climits>
#include <cmath>
#include <cstring>
#include <functional>
#include <iosfwd>
#include <limits>
#include <utility>
#define __STRICT_ANSI__ 1
#include <experimental/simd>
#undef __STRICT_ANSI__
#else
#include <experimental/simd>
#endif

#include <array>
#include <bit>
#include <cstdint>

#include "dual.hpp"

namespace tautline {

namespace kernel {

// libstdc++ computes these functions lane by lane, and a solve calls them some two hundred times.

/// Splits normal positive numbers as frexp does, into a part in [1/2, 1) and a power of 2. It works on the bits of IEEE
/// 754 numbers, in loops that compilers vectorise.
template <class V>
void take_apart(const V& x, V& part, V& power) {
    using T = typename V::value_type;
    static_assert(std::numeric_limits<T>::is_iec559 && (sizeof(T) == 8 || sizeof(T) == 4));
    using bits = std::conditional_t<sizeof(T) == 8, std::uint64_t, std::uint32_t>;
    constexpr int digits = std::numeric_limits<T>::digits - 1;
    constexpr bits below = (bits(1) << digits) - 1, half = std::bit_cast<bits>(T(0.5));
    // Adding an integer to the low bits of 2^digits adds that number to its value.
    constexpr T base = static_cast<T>(bits(1) << digits);
    constexpr T bias = base + T(1 - std::numeric_limits<T>::min_exponent);
    std::array<T, V::size()> parts, powers;
    x.copy_to(parts.data(), std::experimental::element_aligned);
    for (std::size_t i = 0; i < V::size(); ++i) {
        const bits b = std::bit_cast<bits>(parts[i]);
        powers[i] = std::bit_cast<T>((b >> digits) | std::bit_cast<bits>(base)) - bias;
        parts[i] = std::bit_cast<T>((b & below) | half);
    }
    part.copy_from(parts.data(), std::experimental::element_aligned);
    power.copy_from(powers.data(), std::experimental::element_aligned);
}

/// log2 by the series of artanh on [sqrt(1/2), sqrt(2)], within two units in the last place. Where a lane holds no
/// normal positive number it is the standard library's log2.
template <class V>
[[nodiscard]] V log2_of(const V& x) {
    using T = typename V::value_type;
    V m, e;
    take_apart(x, m, e);
    const auto low = m < V(std::numbers::sqrt2_v<T> / 2);
    where(low, m) = m + m;
    where(low, e) = e - V(T(1));
    const V s = (m - V(T(1))) / (m + V(T(1))), s2 = s * s;
    // Two sums, each of every other term, so that neither waits for the other.
    const V s4 = s2 * s2;
    V even = V(T(1 / 21.0L)), odd = V(T(1 / 23.0L));
    for (int k = 17; k >= 1; k -= 4) {
        even = even * s4 + V(static_cast<T>(1 / static_cast<long double>(k)));
        odd = odd * s4 + V(static_cast<T>(1 / static_cast<long double>(k + 2)));
    }
    V result = e + s * (even + odd * s2) * V(static_cast<T>(2 / std::numbers::ln2_v<long double>));
    const auto outside = !(x >= V(std::numeric_limits<T>::min()) && x <= V(std::numeric_limits<T>::max()));
    if (any_of(outside)) { where(outside, result) = std::experimental::log2(x); }
    return result;
}

/// The arc tangent. Source: S. L. Moshier, Methods and Programs for Mathematical Functions (1989): rational
/// approximation of atan, from memory; a test holds it against the standard library.
template <class V>
[[nodiscard]] V atan_of(const V& given) {
    using T = typename V::value_type;
    const auto c = [](long double v) { return V(static_cast<T>(v)); };
    const auto negative = given < c(0);
    V x = given, base = c(0);
    where(negative, x) = -x;
    const auto large = x > c(2.41421356237309504880L), middle = x > c(0.66L) && !large;
    const V inverse = c(-1) / x, turned = (x - c(1)) / (x + c(1));
    where(large, base) = c(std::numbers::pi_v<long double> / 2);
    where(large, x) = inverse;
    where(middle, base) = c(std::numbers::pi_v<long double> / 4);
    where(middle, x) = turned;
    const V z = x * x;
    const V p =
        (((c(-8.750608600031904122785e-1L) * z + c(-1.615753718733365076637e1L)) * z + c(-7.500855792314704667340e1L)) * z +
         c(-1.228866684490136173410e2L)) *
            z +
        c(-6.485021904942025371773e1L);
    const V q =
        ((((z + c(2.485846490142306297962e1L)) * z + c(1.650270098316988542046e2L)) * z + c(4.328810604912902668951e2L)) *
             z +
         c(4.853903996359136964868e2L)) *
            z +
        c(1.945506571482613964425e2L);
    V result = base + (x + x * (z * p / q));
    where(negative, result) = -result;
    return result;
}
template <class V>
[[nodiscard]] V atan2_of(const V& y, const V& x) {
    using T = typename V::value_type;
    const V zero(T(0)), pi(std::numbers::pi_v<T>);
    // For x = 0 and y = 0 the quotient would be NaN.
    V result = atan_of(V(y / x));
    where(x < zero && y >= zero, result) = result + pi;
    where(x < zero && y < zero, result) = result - pi;
    where(x == zero, result) = zero;
    where(x == zero && y > zero, result) = pi / V(T(2));
    where(x == zero && y < zero, result) = -pi / V(T(2));
    return result;
}

} // namespace kernel

/// Which lanes of a pack satisfy a comparison.
template <class T>
class pack_mask {
public:
    /// The mask of the standard library's experimental part.
    using plain = std::experimental::native_simd_mask<T>;
    /// From such a mask.
    pack_mask(const plain& m) : m_(m) {}
    /// The mask of the standard library's experimental part.
    [[nodiscard]] const plain& get() const { return m_; }

    /// @{
    /// Logic lane by lane; `all` and `any` are over all lanes.
    friend pack_mask operator&&(const pack_mask& a, const pack_mask& b) { return a.m_ && b.m_; }
    friend pack_mask operator||(const pack_mask& a, const pack_mask& b) { return a.m_ || b.m_; }
    friend pack_mask operator!(const pack_mask& a) { return !a.m_; }
    friend bool in_all_lanes(const pack_mask& a) { return std::experimental::all_of(a.m_); }
    friend bool in_any_lane(const pack_mask& a) { return std::experimental::any_of(a.m_); }
    /// @}

private:
    plain m_;
};

/// As many numbers as fit into the widest register that the compiler may use: 2 doubles with SSE2, 4 with AVX2.
template <class T = double>
class pack {
public:
    /// The pack of the standard library's experimental part.
    using plain = std::experimental::native_simd<T>;
    pack() : v_(T(0)) {}
    /// From such a pack.
    pack(const plain& v) : v_(v) {}
    /// The same number in every lane.
    template <class S>
    requires std::is_arithmetic_v<S> pack(S s) : v_(static_cast<T>(s)) {}
    /// The pack of the standard library's experimental part.
    [[nodiscard]] const plain& get() const { return v_; }
    /// The number in a lane.
    [[nodiscard]] T operator[](std::size_t lane) const { return v_[lane]; }
    /// Puts a number into a lane.
    void set(std::size_t lane, T s) { v_[lane] = s; }

    /// @{
    /// Arithmetic and comparisons, lane by lane.
    pack operator-() const { return -v_; }
    pack operator+() const { return *this; }
    pack& operator+=(const pack& b) { return *this = *this + b; }
    pack& operator-=(const pack& b) { return *this = *this - b; }
    pack& operator*=(const pack& b) { return *this = *this * b; }
    pack& operator/=(const pack& b) { return *this = *this / b; }
    friend pack operator+(const pack& a, const pack& b) { return a.v_ + b.v_; }
    friend pack operator-(const pack& a, const pack& b) { return a.v_ - b.v_; }
    friend pack operator*(const pack& a, const pack& b) { return a.v_ * b.v_; }
    friend pack operator/(const pack& a, const pack& b) { return a.v_ / b.v_; }
    friend pack_mask<T> operator<(const pack& a, const pack& b) { return a.v_ < b.v_; }
    friend pack_mask<T> operator>(const pack& a, const pack& b) { return a.v_ > b.v_; }
    friend pack_mask<T> operator<=(const pack& a, const pack& b) { return a.v_ <= b.v_; }
    friend pack_mask<T> operator>=(const pack& a, const pack& b) { return a.v_ >= b.v_; }
    friend pack_mask<T> operator==(const pack& a, const pack& b) { return a.v_ == b.v_; }
    friend pack_mask<T> operator!=(const pack& a, const pack& b) { return a.v_ != b.v_; }
    /// @}

    /// Lane by lane: `a` where the mask holds, else `b`.
    // Inlined, because a call would go through memory.
    [[gnu::always_inline]] friend pack select(const pack_mask<T>& m, const pack& a, const pack& b) {
        plain v = b.v_;
        where(m.get(), v) = a.v_;
        return v;
    }
    /// @{
    /// The function of that name, lane by lane, angles in radians.
    friend pack sqrt(const pack& a) { return std::experimental::sqrt(a.v_); }
    friend pack exp2(const pack& a) { return std::experimental::exp2(a.v_); }
    friend pack log2(const pack& a) { return kernel::log2_of(a.v_); }
    friend pack exp(const pack& a) { return std::experimental::exp(a.v_); }
    friend pack log(const pack& a) { return kernel::log2_of(a.v_) * plain(std::numbers::ln2_v<T>); }
    friend pack pow(const pack& a, const pack& b) { return std::experimental::pow(a.v_, b.v_); }
    friend pack sin(const pack& a) { return std::experimental::sin(a.v_); }
    friend pack cos(const pack& a) { return std::experimental::cos(a.v_); }
    friend pack tan(const pack& a) { return std::experimental::tan(a.v_); }
    friend pack asin(const pack& a) { return std::experimental::asin(a.v_); }
    friend pack acos(const pack& a) { return std::experimental::acos(a.v_); }
    friend pack atan(const pack& a) { return kernel::atan_of(a.v_); }
    friend pack atan2(const pack& y, const pack& x) { return kernel::atan2_of(y.v_, x.v_); }
    /// @}

private:
    plain v_;
};

/// The built-in number of a pack.
template <class T>
struct scalar_of<pack<T>> {
    using type = T;
};
/// The lanes of a pack.
template <class T>
struct lanes_of<pack<T>> {
    /// The number of lanes.
    static constexpr std::size_t count = pack<T>::plain::size();
    /// The number in one lane.
    [[nodiscard]] static T get(const pack<T>& x, std::size_t lane) { return x[lane]; }
    /// Puts a number into one lane.
    static void set(pack<T>& x, std::size_t lane, T v) { x.set(lane, v); }
};

/// Two packs side by side keep the processor busy while one of them waits for a result.
template <class T>
inline constexpr std::size_t side_by_side<pack<T>> = 2;

static_assert(real<pack<double>> && real<pack<float>> && real<dual<pack<double>, 1>>);

} // namespace tautline
