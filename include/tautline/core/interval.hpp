#pragma once
/// @file
/// Musical intervals in cents. They have a type of their own, so that a bare number is never taken for one.

#include "quantity.hpp"

namespace tautline {

/// An interval between two pitches, in cents: 1200 to the octave, positive upward. `5 * units::cents` makes one,
/// `interval / units::cents` reads one.
template <class R = double>
struct interval {
    using real = R;
    // Not defaulted: g++ 12 fails on a defaulted one as a member of a class template.
    constexpr interval() noexcept : cents_() {}
    /// From a number of cents; explicit on purpose.
    [[nodiscard]] static constexpr interval from_cents(const R& c) {
        interval i;
        i.cents_ = c;
        return i;
    }
    /// The number of cents.
    [[nodiscard]] constexpr const R& cents() const { return cents_; }

    /// @{
    /// Sum, difference, comparison and scaling, as of their cents.
    constexpr interval operator-() const { return from_cents(-cents_); }
    friend constexpr interval operator+(const interval& a, const interval& b) { return from_cents(a.cents_ + b.cents_); }
    friend constexpr interval operator-(const interval& a, const interval& b) { return from_cents(a.cents_ - b.cents_); }
    template <class S>
    requires std::is_convertible_v<S, R>
    friend constexpr interval operator*(const S& s, const interval& a) { return from_cents(static_cast<R>(s) * a.cents_); }
    friend constexpr auto operator<(const interval& a, const interval& b) { return a.cents_ < b.cents_; }
    friend constexpr auto operator>(const interval& a, const interval& b) { return b < a; }
    friend constexpr auto operator==(const interval& a, const interval& b) { return a.cents_ == b.cents_; }
    /// @}

private:
    R cents_;
};

/// Tag of the cent.
struct cents_tag {};
namespace units {
/// `5 * cents`: an interval of five hundredths of an equal semitone.
inline constexpr cents_tag cents{};
} // namespace units
/// Makes an interval from a number of cents; whole numbers become doubles.
template <class S>
[[nodiscard]] constexpr auto operator*(const S& s, cents_tag) {
    using R = std::conditional_t<std::is_integral_v<S>, double, S>;
    return interval<R>::from_cents(static_cast<R>(s));
}
/// The number of cents of an interval.
template <class R>
[[nodiscard]] constexpr R operator/(const interval<R>& i, cents_tag) {
    return i.cents();
}
namespace literals {
/// `5.0_cents` as an interval.
[[nodiscard]] constexpr auto operator""_cents(long double v) { return static_cast<double>(v) * units::cents; }
/// `5_cents` as an interval.
[[nodiscard]] constexpr auto operator""_cents(unsigned long long v) { return static_cast<double>(v) * units::cents; }
} // namespace literals

/// Frequency ratio of an interval, `2^(c/1200)`.
template <class R>
[[nodiscard]] constexpr R frequency_ratio(const interval<R>& i) {
    return exp2(R(i.cents() / number<R>(1200)));
}

/// The interval from one frequency up to another, `1200 log2(f/f0)`; both > 0.
template <class R>
[[nodiscard]] constexpr interval<R> interval_between(const frequency<R>& from,
                                                     const frequency<std::type_identity_t<R>>& to) {
    return interval<R>::from_cents(number<R>(1200) * log2(ratio(to, from)));
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
requires(!(a_frequency<Given> &&
           ...)) messages::wanted_are<messages::FREQUENCY, messages::FREQUENCY> interval_between(Given...)
TAUTLINE_REFUSED("wanted are two FREQUENCIES: interval_between(440*Hz, 442*Hz)");

} // namespace tautline
