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
#include "lane_functions.hpp"

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
    [[gnu::always_inline]] friend pack operator+(const pack& a, const pack& b) { return a.v_ + b.v_; }
    [[gnu::always_inline]] friend pack operator-(const pack& a, const pack& b) { return a.v_ - b.v_; }
    [[gnu::always_inline]] friend pack operator*(const pack& a, const pack& b) { return a.v_ * b.v_; }
    [[gnu::always_inline]] friend pack operator/(const pack& a, const pack& b) { return a.v_ / b.v_; }
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
    friend pack log2(const pack& a) {
        plain part, power;
        kernel::take_apart(a.v_, part, power);
        plain result = kernel::log2_from_parts(pack(part), pack(power)).v_;
        // Where a lane holds no normal positive number.
        const auto outside =
            !(a.v_ >= plain(std::numeric_limits<T>::min()) && a.v_ <= plain(std::numeric_limits<T>::max()));
        if (any_of(outside)) { where(outside, result) = std::experimental::log2(a.v_); }
        return result;
    }
    friend pack exp(const pack& a) { return std::experimental::exp(a.v_); }
    friend pack log(const pack& a) { return log2(a) * pack(std::numbers::ln2_v<T>); }
    friend pack pow(const pack& a, const pack& b) { return std::experimental::pow(a.v_, b.v_); }
    friend pack sin(const pack& a) { return std::experimental::sin(a.v_); }
    friend pack cos(const pack& a) { return std::experimental::cos(a.v_); }
    friend pack tan(const pack& a) { return std::experimental::tan(a.v_); }
    friend pack asin(const pack& a) { return std::experimental::asin(a.v_); }
    friend pack acos(const pack& a) { return std::experimental::acos(a.v_); }
    friend pack atan(const pack& a) { return kernel::atan_by_ratio(a); }
    friend pack atan2(const pack& y, const pack& x) { return kernel::atan2_by_ratio(y, x); }
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
