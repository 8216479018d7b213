#pragma once
/// @file
/// The least that may call itself a Real: a number with nothing but the operations of the concept, and a mask that is no
/// bool. What compiles and runs with it asks no more of a caller's own number type (a pack, an interval) than is
/// documented.

#include <cmath>

#include <tautline/core/real.hpp>

namespace archetype {

struct mask {
    bool holds;
    // No conversion to bool: a kernel that branches does not compile.
    friend constexpr bool in_all_lanes(mask m) { return m.holds; }
    friend constexpr mask operator&&(mask a, mask b) { return {a.holds && b.holds}; }
    friend constexpr bool in_any_lane(mask m) { return m.holds; }
};

/// The built-in number it is made from; itself no Real, so that what is meant for a scalar is not taken for a lane.
class number {
public:
    constexpr number() = default;
    explicit constexpr number(double v) : v_(v) {}
    template <class T>
    requires std::is_arithmetic_v<T> number(T)
    = delete; // no other number becomes one in silence

    friend constexpr number operator+(const number& a, const number& b) { return number(a.v_ + b.v_); }
    friend constexpr number operator-(const number& a, const number& b) { return number(a.v_ - b.v_); }
    friend constexpr number operator*(const number& a, const number& b) { return number(a.v_ * b.v_); }
    friend constexpr number operator/(const number& a, const number& b) { return number(a.v_ / b.v_); }
    constexpr number operator-() const { return number(-v_); }
    constexpr number& operator+=(const number& b) { return *this = *this + b; }
    friend constexpr mask operator<(const number& a, const number& b) { return {a.v_ < b.v_}; }
    friend constexpr mask operator<=(const number& a, const number& b) { return {a.v_ <= b.v_}; }
    friend constexpr mask operator==(const number& a, const number& b) { return {a.v_ == b.v_}; }
    friend constexpr number select(mask m, const number& a, const number& b) { return m.holds ? a : b; }
    friend constexpr number sqrt(const number& a) { return number(tautline::sqrt(a.v_)); }
    friend constexpr number exp2(const number& a) { return number(tautline::exp2(a.v_)); }
    friend constexpr number log2(const number& a) { return number(tautline::log2(a.v_)); }
    friend number exp(const number& a) { return number(std::exp(a.v_)); }
    friend number log(const number& a) { return number(std::log(a.v_)); }
    friend number sin(const number& a) { return number(std::sin(a.v_)); }
    friend number cos(const number& a) { return number(std::cos(a.v_)); }
    friend number tan(const number& a) { return number(std::tan(a.v_)); }
    friend number asin(const number& a) { return number(std::asin(a.v_)); }
    friend number acos(const number& a) { return number(std::acos(a.v_)); }
    friend number atan(const number& a) { return number(std::atan(a.v_)); }
    friend number pow(const number& a, const number& b) { return number(std::pow(a.v_, b.v_)); }
    friend number atan2(const number& y, const number& x) { return number(std::atan2(y.v_, x.v_)); }

    /// For the tests' eyes only.
    [[nodiscard]] constexpr double seen() const { return v_; }

private:
    double v_ = 0;
};

} // namespace archetype

template <>
struct tautline::scalar_of<archetype::number> {
    using type = double;
};
