#pragma once
/// @file
/// A quantity of any kind, together with its kind. Lists of results of many kinds are made of it, and so are numbers
/// that are named at run time. It can only be read as a quantity of its own kind.

#include <concepts>
#include <string_view>

#include "invalid_input.hpp"

namespace tautline {

namespace kernel {

/// What a number of a model measures.
template <class T>
struct leaf_kind {
    static constexpr const char* name = "number";
};
template <class U, class R>
struct leaf_kind<bu::quantity<U, R>> {
    static constexpr const char* name = kind<U>::name;
};
template <class R>
struct leaf_kind<interval<R>> {
    static constexpr const char* name = "interval";
};
/// A member of either sort, `field` or `needed`.
template <class T>
requires requires { typename T::plain; }
struct leaf_kind<T> : leaf_kind<typename T::plain> {};

/// Calls `f.operator()<U>()` for the unit U whose kind has the name. Returns false where there is none.
template <class F>
constexpr bool with_kind(std::string_view name, F&& f) {
    const auto each = [&]<class... U>() { return ((name == kind<U>::name && (f.template operator()<U>(), true)) || ...); };
    return each.template
    operator()<unit::length, unit::area, unit::volume, unit::mass, unit::duration, unit::frequency, unit::velocity,
               unit::acceleration, unit::force, unit::stress, unit::density, unit::angle, unit::curvature,
               unit::linear_density, unit::stiffness, unit::compliance, unit::moment, unit::rotational_stiffness,
               unit::second_moment, unit::flexural_rigidity, unit::thermal_expansion, unit::temperature_difference>();
}

} // namespace kernel

/// Name of what is measured: "length", "force", ...; "interval" in cents, "number" for a ratio. Empty: no kind.
using kind_name = std::string_view;

/// A quantity, an interval or a plain number, with its kind. It may also hold nothing.
class any_quantity {
public:
    constexpr any_quantity() = default;
    /// A plain number.
    constexpr any_quantity(double number) : kind_("number"), si_(number) {}
    /// A quantity.
    template <class U>
    constexpr any_quantity(const bu::quantity<U, double>& q) : kind_(tautline::kind<U>::name), si_(q.value()) {}
    /// A quantity of another built-in number type, as a double.
    template <class U, std::floating_point F>
    requires(!std::is_same_v<F, double>) constexpr any_quantity(const bu::quantity<U, F>& q)
        : kind_(tautline::kind<U>::name), si_(static_cast<double>(q.value())) {}
    /// An interval.
    constexpr any_quantity(const interval<double>& i) : kind_("interval"), si_(i.cents()) {}
    /// An interval of another built-in number type, as a double.
    template <std::floating_point F>
    requires(!std::is_same_v<F, double>) constexpr any_quantity(const interval<F>& i)
        : kind_("interval"), si_(static_cast<double>(i.cents())) {}
    /// A quantity of a kind by its name, from its number in SI (of an interval in cents). The name must be that of an
    /// existing kind, and its text must outlive the quantity, as the names from `kind_of` do.
    [[nodiscard]] static constexpr any_quantity of(kind_name kind, double si) {
        any_quantity q(si);
        q.kind_ = kind;
        return q;
    }

    /// Whether it holds anything.
    [[nodiscard]] constexpr bool has_value() const { return !kind_.empty(); }
    /// Whether it holds a number that is not NaN. The result for a fret that a string does not reach, for example, is
    /// NaN.
    [[nodiscard]] constexpr bool is_number() const { return has_value() && si_ == si_; }
    /// What it measures.
    [[nodiscard]] constexpr kind_name kind() const { return kind_; }
    /// Its number in SI; for an interval, in cents.
    [[nodiscard]] constexpr double si() const { return si_; }
    /// As a quantity of its kind: `as<length<>>()`, `as<interval<>>()`, `as<double>()`.
    /// @throws invalid_input when it is of another kind
    template <class Q>
    [[nodiscard]] constexpr Q as() const {
        require_kind(kernel::leaf_kind<Q>::name);
        if constexpr (std::is_same_v<Q, double>) {
            return si_;
        } else if constexpr (std::is_same_v<Q, interval<double>>) {
            return Q::from_cents(si_);
        } else {
            return Q::from_value(si_);
        }
    }

    /// The difference of two quantities of one kind. @throws invalid_input when their kinds differ
    [[nodiscard]] friend constexpr any_quantity operator-(const any_quantity& a, const any_quantity& b) {
        a.require_kind(b.kind_);
        return of(a.kind_, a.si_ - b.si_);
    }
    /// The quantity times a plain number.
    [[nodiscard]] friend constexpr any_quantity operator*(double n, const any_quantity& q) {
        return of(q.kind_, n * q.si_);
    }
    /// Whether both have the same kind and the same number.
    [[nodiscard]] friend constexpr bool operator==(const any_quantity& a, const any_quantity& b) = default;

private:
    constexpr void require_kind(kind_name wanted) const {
        if (kind_ == wanted) { return; }
        refuse(wanted);
    }
    [[noreturn]] void refuse(kind_name wanted) const {
        throw invalid_input(problem{"the number", messages::joined({kind_.empty() ? kind_name("nothing") : kind_}),
                                    messages::joined({"must be read as what it is, not as ", wanted})});
    }

    kind_name kind_{};
    double si_ = 0;
};

} // namespace tautline
