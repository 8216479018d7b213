#pragma once
/// @file
/// The quantities of a setup: SI quantities of Boost.Units over any Real, their kinds, and the ways in which a public
/// signature takes one.
///
/// - `length<R>`, `force<R>`, ... are plain `boost::units::quantity`; formulas and results use them.
/// - `field<length<R>>` is a public data member or a parameter beside a model. It takes a length and nothing else: no
/// bare number, no `0`, no force. The compiler's message says what was wanted.
/// - `needed<length<R>>` is a field without a fair default: it cannot be left out of a braced list.
/// - `a_length auto` is a parameter of a free formula: the number type is deduced from the argument.
///
/// Slopes are plain ratios (radian is a base unit of Boost.Units), moments are newton times metre, never
/// `boost::units::si::torque`.

#include "dual.hpp"
#include "kinds.hpp"
#include "real.hpp"
#include "refused.hpp"

namespace tautline {

/// Whether T is any quantity, or a field or another type that derives from one.
template <class T>
    struct is_quantity : std::bool_constant < requires {
    typename T::unit_type;
} > {};

/// Named in the compiler's message beside the sentence: the type that was given.
template <class T>
struct given {};

/// A public data member, or a parameter beside a model, that takes one kind of quantity and nothing else.
///
/// It derives from its quantity and has the same size; its constructors decide what it takes. A quantity over another
/// number type is taken where that number converts, so `12*thou` fits a model over dual numbers. A wrong type is
/// refused with a sentence, and so `std::is_convertible` from it is true: do not overload on a field.
template <class Q>
struct field;
/// The only specialisation: a field of a quantity.
template <class U, class R>
struct field<bu::quantity<U, R>> : bu::quantity<U, R> {
    /// The quantity it holds.
    using plain = bu::quantity<U, R>;
    /// Not given: a member that was left out is refused, never taken for zero. A member with a fair default says so.
    constexpr field() noexcept : plain(plain::from_value(not_given<R>())) {}
    /// From a quantity of the kind.
    constexpr field(const plain& q) : plain(q) {}
    /// From a quantity of the kind over a number type that converts.
    template <class S>
    requires(!std::is_same_v<S, R> && std::is_convertible_v<S, R>) constexpr field(const bu::quantity<U, S>& q)
        : plain(plain::from_value(static_cast<R>(q.value()))) {}
    /// From a number type that this field cannot hold: refused, with a sentence that says how to carry the model over.
    template <class S>
    requires(!std::is_convertible_v<S, R>) constexpr field(const bu::quantity<U, S>&) { messages::fits<given<S>>(); }
    /// Anything else: refused, with a sentence that says what is wanted.
    template <class T>
    requires(!of_kind<T, U>) constexpr field(const T&) { messages::wanted<given<T>>(kind<U>()); }
};

/// A field without a fair default: a braced list that leaves it out does not compile.
///
/// It can only be empty in a model made without any members, `fret_wire wire;` or `fret_wire()`. Readers and
/// conversions of the number type make such a model and fill it in. A member that is still missing is then refused by
/// name. `Told` is there because g++ names it in its message.
template <class Q, class Told = messages::give_it_by_name>
struct needed : field<Q> {
    using field<Q>::field;
    explicit constexpr needed() noexcept = default; // a needed member is left out of the braces: give it by name
};

/// A parameter whose number type is fixed by a model in the same call; it takes no part in deduction.
template <class Q>
using param = std::type_identity_t<field<Q>>;

// The number type of things -----------------------------------------------------------------------------------------

/// The Real that a quantity or a model is built on (a model says `using real = R`).
template <class T>
struct real_of {
    using type = typename T::real;
};
template <class U, class R>
struct real_of<bu::quantity<U, R>> {
    using type = R;
};
template <class U, class R>
struct real_of<field<bu::quantity<U, R>>> {
    using type = R;
};
template <class Q, class Told>
struct real_of<needed<Q, Told>> : real_of<Q> {};
/// The number type of a quantity or a model.
template <class T>
using real_of_t = typename real_of<std::remove_cvref_t<T>>::type;

namespace kernel {
template <class... Rs>
requires requires { (... + std::declval<Rs>()); }
std::remove_cvref_t<decltype((... + std::declval<Rs>()))> meet();
template <class First, class... More, class Told = messages::NUMBER_TYPES_do_not_mix_carry_one_over>
requires(!requires { (std::declval<First>() + ... + std::declval<More>()); }) First meet()
TAUTLINE_REFUSED("NUMBER TYPES do not mix: carry one over, as in over<dual<double, 2>>(height)");
} // namespace kernel

/// The common Real of several quantities: the one to which the others convert without loss (`double` and a dual give a
/// dual).
template <class... Ts>
using common_real_t = decltype(kernel::meet<real_of_t<Ts>...>());

/// The quantity `q` over number type `R`.
template <class R, class U, class S>
[[nodiscard]] constexpr bu::quantity<U, R> over(const bu::quantity<U, S>& q) {
    return bu::quantity<U, R>::from_value(static_cast<R>(q.value()));
}

/// A quantity as a search looks at it (`search_t`).
template <class U, class R>
[[nodiscard]] constexpr bu::quantity<U, search_t<R>> searched(const bu::quantity<U, R>& q) {
    return bu::quantity<U, search_t<R>>::from_value(searched(q.value()));
}

/// The ratio of two quantities of one kind, as a plain Real. (Boost.Units' own ratio is a quantity, which std::max and
/// ?: refuse.)
template <class U, class R>
[[nodiscard]] constexpr R ratio(const bu::quantity<U, R>& a, const bu::quantity<U, std::type_identity_t<R>>& b) {
    return a.value() / b.value();
}

// Operators Boost leaves out: numbers of another type than the quantity's --------------------------------------------

/// A built-in number type other than R.
template <class S, class R>
concept number_beside = std::is_arithmetic_v<S> && !std::is_same_v<S, R>;

/// @{
/// A quantity times or over a built-in number of another type than its own.
template <class S, class U, class R>
requires number_beside<S, R>
[[nodiscard]] constexpr bu::quantity<U, R> operator*(S s, const bu::quantity<U, R>& q) {
    return bu::quantity<U, R>::from_value(number<R>(s) * q.value());
}
template <class S, class U, class R>
requires number_beside<S, R>
[[nodiscard]] constexpr bu::quantity<U, R> operator*(const bu::quantity<U, R>& q, S s) { return s * q; }
template <class S, class U, class R>
requires number_beside<S, R>
[[nodiscard]] constexpr bu::quantity<U, R> operator/(const bu::quantity<U, R>& q, S s) {
    return bu::quantity<U, R>::from_value(q.value() / number<R>(s));
}
template <class S, class U, class R>
requires number_beside<S, R>
[[nodiscard]] constexpr auto operator/(S s, const bu::quantity<U, R>& q) { return number<R>(s) / q; }
/// @}

// A sum or a comparison of two kinds is refused in words. The return type appears in the compiler's message, where
// Boost.Units alone would list all its operators. The operators are deleted, so that `requires` still gives the right
// answer.

/// Any unit but U.
template <class V, class U>
concept other_than = !std::is_same_v<V, U>;
/// Named in the compiler's message about a sum or a comparison of two kinds.
struct wanted_both_sides_of_the_same_kind {};
/// @{
/// Refused: two kinds.
template <class U, class R, other_than<U> V, class S>
wanted_both_sides_of_the_same_kind operator+(const bu::quantity<U, R>&, const bu::quantity<V, S>&)
    TAUTLINE_REFUSED("both sides must be of the same KIND, as in 1*mm + 2*inch");
template <class U, class R, other_than<U> V, class S>
wanted_both_sides_of_the_same_kind operator-(const bu::quantity<U, R>&, const bu::quantity<V, S>&)
    TAUTLINE_REFUSED("both sides must be of the same KIND, as in 1*mm + 2*inch");
template <class U, class R, other_than<U> V, class S>
wanted_both_sides_of_the_same_kind operator<(const bu::quantity<U, R>&, const bu::quantity<V, S>&)
    TAUTLINE_REFUSED("both sides must be of the same KIND, as in 1*mm + 2*inch");
template <class U, class R, other_than<U> V, class S>
wanted_both_sides_of_the_same_kind operator>(const bu::quantity<U, R>&, const bu::quantity<V, S>&)
    TAUTLINE_REFUSED("both sides must be of the same KIND, as in 1*mm + 2*inch");
template <class U, class R, other_than<U> V, class S>
wanted_both_sides_of_the_same_kind operator<=(const bu::quantity<U, R>&, const bu::quantity<V, S>&)
    TAUTLINE_REFUSED("both sides must be of the same KIND, as in 1*mm + 2*inch");
template <class U, class R, other_than<U> V, class S>
wanted_both_sides_of_the_same_kind operator>=(const bu::quantity<U, R>&, const bu::quantity<V, S>&)
    TAUTLINE_REFUSED("both sides must be of the same KIND, as in 1*mm + 2*inch");
template <class U, class R, other_than<U> V, class S>
wanted_both_sides_of_the_same_kind operator==(const bu::quantity<U, R>&, const bu::quantity<V, S>&)
    TAUTLINE_REFUSED("both sides must be of the same KIND, as in 1*mm + 2*inch");
template <class U, class R, other_than<U> V, class S>
wanted_both_sides_of_the_same_kind operator!=(const bu::quantity<U, R>&, const bu::quantity<V, S>&)
    TAUTLINE_REFUSED("both sides must be of the same KIND, as in 1*mm + 2*inch");
/// @}

/// A number or a quantity of any kind: the arguments of a formula's refusal.
template <class T>
concept of_any_kind = std::is_arithmetic_v<T> || requires {
    typename T::unit_type;
};

// Functions of quantities -------------------------------------------------------------------------------------------

/// `a` where the mask holds, else `b`.
template <class Mask, class U, class R>
[[nodiscard]] constexpr bu::quantity<U, R> select(const Mask& m, const bu::quantity<U, R>& a, const bu::quantity<U, R>& b) {
    return bu::quantity<U, R>::from_value(select(m, a.value(), b.value()));
}
/// `a` where the mask holds, else `b`.
template <class U, class R>
[[nodiscard]] constexpr bu::quantity<U, R> select(bool m, const bu::quantity<U, R>& a, const bu::quantity<U, R>& b) {
    return bu::quantity<U, R>::from_value(select(m, a.value(), b.value()));
}
/// Mask of the lanes with a < b. Boost.Units' own operator gives a single bool.
template <class U, class R>
[[nodiscard]] constexpr auto is_less(const bu::quantity<U, R>& a, const bu::quantity<U, R>& b) {
    return a.value() < b.value();
}
/// The lesser of two. (Both arguments are deduced, so that it is chosen before std::min.)
template <class U, class R>
[[nodiscard]] constexpr bu::quantity<U, R> min(const bu::quantity<U, R>& a, const bu::quantity<U, R>& b) {
    return bu::quantity<U, R>::from_value(min(a.value(), b.value()));
}
/// The greater of two.
template <class U, class R>
[[nodiscard]] constexpr bu::quantity<U, R> max(const bu::quantity<U, R>& a, const bu::quantity<U, R>& b) {
    return bu::quantity<U, R>::from_value(max(a.value(), b.value()));
}
/// Any unit. A function with this concept is chosen before the same function of Boost.Units (`boost/units/cmath.hpp`),
/// which has none.
template <class U>
concept any_unit = true;
/// Magnitude.
template <any_unit U, class R>
[[nodiscard]] constexpr bu::quantity<U, R> abs(const bu::quantity<U, R>& q) {
    return bu::quantity<U, R>::from_value(abs(q.value()));
}
/// Square root, with the root of the unit.
template <any_unit U, class R>
[[nodiscard]] constexpr auto sqrt(const bu::quantity<U, R>& q) {
    using root = typename bu::root_typeof_helper<U, bu::static_rational<2>>::type;
    return bu::quantity<root, R>::from_value(sqrt(q.value()));
}
/// Square of a quantity.
template <class U, class R>
[[nodiscard]] constexpr auto square(const bu::quantity<U, R>& q) {
    return q * q;
}
/// Length of the hypotenuse over two sides.
template <any_unit U, class R>
[[nodiscard]] constexpr bu::quantity<U, R> hypot(const bu::quantity<U, R>& a, const bu::quantity<U, R>& b) {
    return bu::quantity<U, R>::from_value(hypot(a.value(), b.value()));
}
/// Whether every lane is a finite number.
template <class U, class R>
[[nodiscard]] constexpr bool all_finite(const bu::quantity<U, R>& q) {
    return all_finite(q.value());
}
/// Sine of an angle.
template <class R>
[[nodiscard]] R sin(const angle<R>& a) {
    return sin(a.value());
}
/// Cosine of an angle.
template <class R>
[[nodiscard]] R cos(const angle<R>& a) {
    return cos(a.value());
}
/// Tangent of an angle.
template <class R>
[[nodiscard]] R tan(const angle<R>& a) {
    return tan(a.value());
}
/// The angle of the direction (x, y), -pi to pi.
template <class U, class R>
[[nodiscard]] angle<R> atan2(const bu::quantity<U, R>& y, const bu::quantity<U, std::type_identity_t<R>>& x) {
    return angle<R>::from_value(atan2(y.value(), x.value()));
}

} // namespace tautline
