#pragma once
/// @file
/// Messages about bad input. Each problem names the field, the value and what is allowed, in one sentence.

#include <concepts>
#include <cstdio>
#include <initializer_list>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "dual.hpp"
#include "interval.hpp"
#include "quantity.hpp"
#include "sentence.hpp"
#include "when_used.hpp"

namespace tautline {

/// One thing that is wrong with an input.
struct problem {
    std::string field;   ///< path of the field, `strings[3].wraps[0].diameter`
    std::string value;   ///< the value as given, with its unit
    std::string allowed; ///< what would be right: "must be more than 0 mm and at most 10 mm"

    /// The problem as a sentence.
    [[nodiscard]] std::string sentence() const {
        return value.empty() ? messages::joined({field, " ", allowed, "."})
                             : messages::joined({field, " is ", value, "; it ", allowed, "."});
    }
};

/// Thrown for bad input. It carries every problem found; its text is all their sentences.
class invalid_input : public std::invalid_argument {
public:
    /// Reports several problems at once; what() joins their sentences.
    explicit invalid_input(std::vector<problem> found)
        : std::invalid_argument(sentences(found)), problems_(std::move(found)) {}
    /// Reports one problem.
    explicit invalid_input(problem one) : invalid_input(alone(std::move(one))) {}
    /// Each problem that was found: field, value and what is allowed.
    [[nodiscard]] const std::vector<problem>& problems() const noexcept { return problems_; }

private:
    static std::vector<problem> alone(problem one) {
        std::vector<problem> list;
        list.push_back(std::move(one));
        return list;
    }
    static std::string sentences(const std::vector<problem>& found) {
        std::string text;
        for (const problem& p : found) { messages::append(text, {text.empty() ? "" : "\n", p.sentence()}); }
        return text;
    }
    std::vector<problem> problems_;
};

/// A plain number for a message: six significant digits, or all digits before the point of a large number. From 1e-12
/// to 1e16 it has no power of ten, so that a limit can be typed as it is told. Minus zero is 0. "not a number" or
/// "infinite" where it is not finite.
[[nodiscard]] inline std::string number_text(long double v) {
    if (v == 0) { v = 0; } // no minus zero
    char digits[64];
    const long double size = v < 0 ? -v : v;
    const bool large = 999999.5L <= size && size < 1e16L;
    if (1e-12L <= size && size < 1e-4L) {
        int places = 5;
        for (long double s = size; s < 1; s *= 10) { ++places; }
        int end = std::snprintf(digits, sizeof digits, "%.*Lf", places, v);
        while (digits[end - 1] == '0') { digits[--end] = '\0'; }
    } else {
        std::snprintf(digits, sizeof digits, large ? "%.0Lf" : "%.6Lg", v);
    }
    return messages::joined({v != v ? "not a number" : !all_finite(v) ? "infinite" : digits});
}
/// A number with its unit for a message. A number that is not finite gets no unit.
[[nodiscard]] inline std::string with_unit(long double v, const char* symbol) {
    return all_finite(v) ? messages::joined({number_text(v), " ", symbol}) : number_text(v);
}
/// A quantity for a message, in the unit of its kind at the bench.
template <class U>
[[nodiscard]] std::string quantity_text(long double si) {
    return with_unit(si / kind<U>::size, kind<U>::symbol);
}

/// The range that a field allows, in SI, in cents or as plain numbers. An open end excludes its limit.
struct allowed_range {
    long double low = -std::numeric_limits<long double>::infinity(); ///< in SI, cents or plain numbers
    long double high = std::numeric_limits<long double>::infinity(); ///< in the same
    bool low_open = false;                                           ///< the lower limit itself is refused
    bool high_open = false;                                          ///< the upper limit itself is refused
    /// Why the default of a member that is left out is fair to take; null: the member must be given.
    const char* reason = nullptr;
    long double least = 0;                                      ///< the least value of a kind, where a range is more than 0
    long double most = std::numeric_limits<long double>::max(); ///< the greatest magnitude of the kind

    /// Whether a number lies within the range and the kind's limits. NaN never does.
    template <class R>
    [[nodiscard]] constexpr bool holds(const R& v) const {
        // NaN fails every comparison here; infinities fail the last.
        const long double from = low_open && low == 0 ? least : low;
        const auto above = low_open && from == low ? number<R>(low) < v : number<R>(from) <= v;
        const auto below = high_open ? v < number<R>(high) : v <= number<R>(high);
        return in_all_lanes(above && below && abs(v) <= largest<R>());
    }
    /// The same for the range alone, without the least and the greatest value of the kind.
    [[nodiscard]] constexpr bool holds_limits(long double v) const {
        return (low_open ? low < v : low <= v) && (high_open ? v < high : v <= high);
    }

private:
    template <class R>
    [[nodiscard]] constexpr R largest() const {
        const auto finite = static_cast<long double>(std::numeric_limits<scalar_of_t<R>>::max());
        return number<R>(most < finite ? most : finite);
    }
};

/// A range with its unit, made by `more_than(0*mm)`, `between(0*mm, 10*mm)` and so on. A range of lengths cannot be
/// used for a force.
template <class U>
struct range_of : allowed_range {
    /// The same range for a member that may be left out, with the reason why its default is fair to take:
    /// `between(0*mm, 3*mm).fair_default("straight, as most boards are trued")`.
    [[nodiscard]] constexpr range_of fair_default(const char* why) const {
        range_of with = *this;
        with.reason = why;
        return with;
    }
};

/// Stands for the unit of a text.
struct text_tag {};
/// The range of a text that must be given, such as a string's note.
inline constexpr range_of<text_tag> any_text{};

/// A quantity's number in SI.
template <class U, class R>
[[nodiscard]] constexpr long double in_si(const bu::quantity<U, R>& q) {
    return static_cast<long double>(q.value());
}
/// Above a limit, which is excluded. Every range also ends at the least and the greatest value that its kind may have.
template <class U>
[[nodiscard]] constexpr range_of<U> more_than(const bu::quantity<U, double>& low) {
    return {{.low = in_si(low), .low_open = true, .least = kind<U>::least, .most = kind<U>::most}};
}
/// From a limit up, which is included.
template <class U>
[[nodiscard]] constexpr range_of<U> at_least(const bu::quantity<U, double>& low) {
    return {{.low = in_si(low), .most = kind<U>::most}};
}
/// Excludes the lower limit, includes the upper.
template <class U>
[[nodiscard]] constexpr range_of<U> more_than_up_to(const bu::quantity<U, double>& low,
                                                    const bu::quantity<U, double>& high) {
    return {{.low = in_si(low), .high = in_si(high), .low_open = true, .least = kind<U>::least}};
}
/// Includes both limits.
template <class U>
[[nodiscard]] constexpr range_of<U> between(const bu::quantity<U, double>& low, const bu::quantity<U, double>& high) {
    return {{.low = in_si(low), .high = in_si(high)}};
}
/// Every value that the kind may have, of either sign.
template <class U>
[[nodiscard]] constexpr range_of<U> any_finite() {
    return {{.most = kind<U>::most}};
}
/// A place on an instrument or near it: within 5 m of its zero.
[[nodiscard]] constexpr range_of<unit::length> about_an_instrument() { return {{.low = -5, .high = 5}}; }
/// The least plain number above 0 that a range takes. The greatest is `most_number`.
inline constexpr long double least_number = 1e-9L;
inline constexpr long double most_number = 1e9L; ///< see `least_number`
/// Of a plain number: above a limit, which is excluded.
[[nodiscard]] constexpr range_of<void> more_than(double low) {
    return {{.low = low, .low_open = true, .least = least_number, .most = most_number}};
}
/// Of a plain number: from a limit up, which is included.
[[nodiscard]] constexpr range_of<void> at_least(double low) { return {{.low = low}}; }
/// Of a plain number: excludes the lower limit, includes the upper.
[[nodiscard]] constexpr range_of<void> more_than_up_to(double low, double high) {
    return {{.low = low, .high = high, .low_open = true, .least = least_number}};
}
/// Of a plain number: both limits included.
[[nodiscard]] constexpr range_of<void> between(double low, double high) { return {{.low = low, .high = high}}; }
/// Range of an interval in cents, both limits included.
[[nodiscard]] constexpr range_of<cents_tag> between(const interval<double>& low, const interval<double>& high) {
    return {{.low = low.cents(), .high = high.cents()}};
}

namespace messages {

/// How numbers of a kind are written: divided by `size` and followed by `symbol`. Without a symbol they are written
/// plain.
struct notation {
    const char* symbol = nullptr; ///< behind the number
    long double size = 1;         ///< one of it in SI
    /// The text of a number that is given in SI, in cents or plain.
    [[nodiscard]] std::string operator()(long double v) const {
        return symbol ? with_unit(v / size, symbol) : number_text(v);
    }
};
template <class U>
inline constexpr notation notation_of{kind<U>::symbol, kind<U>::size};
template <>
inline constexpr notation notation_of<void>{};
template <>
inline constexpr notation notation_of<cents_tag>{"cents"};

/// A range in words: "must be more than 0 mm and at most 10 mm".
[[nodiscard]] inline std::string allowed_text(const allowed_range& r, const notation& write) {
    constexpr long double inf = std::numeric_limits<long double>::infinity();
    const bool low = r.low > -inf, high = r.high < inf;
    if (!low && !high) { return joined({"must be a finite number"}); }
    const char* const from = !low ? "" : r.low_open ? "more than " : "at least ";
    const char* const to = !high ? "" : r.high_open ? "less than " : "at most ";
    return joined({"must be ", from, low ? write(r.low) : std::string(), low && high ? " and " : "", to,
                   high ? write(r.high) : std::string()});
}
/// The plain number in a Real, for a message. A pack has no single number and gives NaN.
template <class R>
[[nodiscard]] long double plain_value(const R& v) {
    if constexpr (requires { static_cast<long double>(value_of(v)); }) {
        return static_cast<long double>(value_of(v));
    } else {
        return std::numeric_limits<long double>::quiet_NaN();
    }
}
/// A number for a sentence; `shown` is false where there is no single number.
struct shown_number {
    long double value = 0;
    bool shown = false;
};
/// The plain number in a Real for a sentence; not shown for a pack.
template <class R>
[[nodiscard]] shown_number shown_value(const R& v) {
    if constexpr (requires { static_cast<long double>(value_of(v)); }) {
        return {plain_value(v), true};
    } else {
        return {};
    }
}
/// The problem of a number outside its range. Without a number its sentence names the range only.
[[nodiscard]] inline problem out_of_range(std::string_view field, const shown_number& number, const allowed_range& r,
                                          const notation& write) {
    std::string allowed = allowed_text(r, write);
    // The number is in the range but beyond the limits of its kind.
    if (number.shown && all_finite(number.value) && r.holds_limits(number.value)) {
        const bool below = r.low_open && r.low == 0 && number.value < r.least;
        const char* const side = below ? "at least " : number.value < 0 ? "at least -" : "at most ";
        allowed = joined({"must be a possible size: ", side, write(below ? r.least : r.most)});
    }
    return {joined({field}), number.shown ? write(number.value) : std::string(), std::move(allowed)};
}
/// A whole number for a message.
[[nodiscard]] inline std::string count_text(int given) {
    return given == not_counted ? joined({"not given"}) : joined({given});
}
/// Throws `invalid_input` with one problem in words.
template <class = when_used>
[[noreturn]] void refuse(std::string_view field, std::string_view value, std::string_view allowed) {
    throw invalid_input(problem{joined({field}), joined({value}), joined({allowed})});
}
TAUTLINE_HELD(void refuse<>(std::string_view, std::string_view, std::string_view))
/// Throws `invalid_input` with one number outside its range.
template <class = when_used>
[[noreturn]] void refuse(std::string_view field, const shown_number& number, const allowed_range& r,
                         const notation& write) {
    throw invalid_input(out_of_range(field, number, r, write));
}
TAUTLINE_HELD(void refuse<>(std::string_view, const shown_number&, const allowed_range&, const notation&))

} // namespace messages

/// Checks that a quantity lies in its range; else throws `invalid_input` that names the field, the value and the range.
template <class U, class R>
constexpr void require(std::string_view field, const bu::quantity<U, R>& q, const range_of<std::type_identity_t<U>>& r) {
    if (!r.holds(q.value())) { messages::refuse(field, messages::shown_value(q.value()), r, messages::notation_of<U>); }
}
/// Named in the compiler's message when the range is of another kind than the quantity.
struct wanted_a_range_of_the_same_kind {};
/// Refused: the range is of another kind than the quantity.
template <class U, class R, other_than<U> V>
wanted_a_range_of_the_same_kind require(std::string_view, const bu::quantity<U, R>&, const range_of<V>&)
    TAUTLINE_REFUSED("the range must be of the same KIND as the quantity");
/// The same for a plain number.
template <real R>
constexpr void require(std::string_view field, const R& v, const range_of<void>& r) {
    if (!r.holds(v)) { messages::refuse(field, messages::shown_value(v), r, messages::notation_of<void>); }
}
/// The same for an interval.
template <class R>
constexpr void require(std::string_view field, const interval<R>& i, const range_of<cents_tag>& r) {
    if (!r.holds(i.cents())) {
        messages::refuse(field, messages::shown_value(i.cents()), r, messages::notation_of<cents_tag>);
    }
}
/// Checks that a rule holds; else throws `invalid_input` with the field and the rule in words ("must be ...").
constexpr void require_that(bool holds, std::string_view field, std::string_view rule) {
    if (!holds) { messages::refuse(field, "", rule); }
}
/// The same of one whole number, which is told as it was given.
constexpr void require_that(bool holds, std::string_view field, std::string_view rule, int given) {
    if (!holds) { messages::refuse(field, messages::count_text(given), rule); }
}

} // namespace tautline
