#pragma once
/// @file
/// What is said about bad input: each problem names the field, the value and what is allowed, in one sentence.

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

/// Thrown for what a caller could have known: carries every problem found, and all their sentences as its text.
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

/// A plain number for a message: six significant digits, of large ones all before the point and of small ones all behind
/// it, so that a limit can be typed as it is told; "not a number" or "infinite" where it is none.
[[nodiscard]] inline std::string number_text(long double v) {
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
/// A number with its unit for a message; what is no finite number has no unit.
[[nodiscard]] inline std::string with_unit(long double v, const char* symbol) {
    return all_finite(v) ? messages::joined({number_text(v), " ", symbol}) : number_text(v);
}
/// A quantity for a message, in the unit its kind is read in at the bench.
template <class U>
[[nodiscard]] std::string quantity_text(long double si) {
    return with_unit(si / kind<U>::size, kind<U>::symbol);
}

/// What a field allows, in SI (or in cents, or as a plain number). An open end excludes its limit.
struct allowed_range {
    long double low = -std::numeric_limits<long double>::infinity(); ///< in SI, cents or plain numbers
    long double high = std::numeric_limits<long double>::infinity(); ///< in the same
    bool low_open = false;                                           ///< the lower limit itself is refused
    bool high_open = false;                                          ///< the upper limit itself is refused
    /// Why what is left out takes the value a member begins with; none: it must be given.
    const char* reason = nullptr;
    long double least = 0;                                      ///< what is to be more than 0 measures at least this
    long double most = std::numeric_limits<long double>::max(); ///< of either sign

    /// Whether a number lies within; NaN never does.
    template <class R>
    [[nodiscard]] constexpr bool holds(const R& v) const {
        // Written so that NaN fails every test; infinities fail the last.
        const long double from = low_open && low == 0 ? least : low;
        const auto above = low_open && from == low ? number<R>(low) < v : number<R>(from) <= v;
        const auto below = high_open ? v < number<R>(high) : v <= number<R>(high);
        return in_all_lanes(above && below && abs(v) <= largest<R>());
    }
    /// The same without what a kind may measure at all: what the sentence says first.
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

/// Ranges in words: `more_than(0*mm)`, `between(0*mm, 10*mm)`, ... kept with their unit, so that a length's range cannot
/// guard a force.
template <class U>
struct range_of : allowed_range {
    /// The same range of a member that may be left out, and why what it then holds is fair to take:
    /// `between(0*mm, 3*mm).fair_default("straight, as most boards are trued")`.
    [[nodiscard]] constexpr range_of fair_default(const char* why) const {
        range_of with = *this;
        with.reason = why;
        return with;
    }
};

/// Stands for the unit of a text.
struct text_tag {};
/// Of a text that must be given: a string's note, what lies under the strings.
inline constexpr range_of<text_tag> any_text{};

/// A quantity's number in SI.
template <class U, class R>
[[nodiscard]] constexpr long double in_si(const bu::quantity<U, R>& q) {
    return static_cast<long double>(q.value());
}
/// Above a limit, which it excludes. No range is without end: it stops at the most, or the least, that its kind may
/// measure.
template <class U>
[[nodiscard]] constexpr range_of<U> more_than(const bu::quantity<U, double>& low) {
    return {{.low = in_si(low), .low_open = true, .least = kind<U>::least, .most = kind<U>::most}};
}
/// From a limit up, which it includes.
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
/// Whatever a kind may measure, of either sign.
template <class U>
[[nodiscard]] constexpr range_of<U> any_finite() {
    return {{.most = kind<U>::most}};
}
/// A place on an instrument or about it: within 5 m of where it is told from.
[[nodiscard]] constexpr range_of<unit::length> about_an_instrument() { return {{.low = -5, .high = 5}}; }
/// The least plain number that counts: a billionth.
inline constexpr long double least_number = 1e-9L;
inline constexpr long double most_number = 1e9L; ///< see `least_number`
/// Ranges of plain numbers.
[[nodiscard]] constexpr range_of<void> more_than(double low) {
    return {{.low = low, .low_open = true, .least = least_number, .most = most_number}};
}
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

/// How numbers of a kind are written: divided by `size` and followed by `symbol`, or plain where there is none.
struct notation {
    const char* symbol = nullptr; ///< behind the number
    long double size = 1;         ///< one of it in SI
    /// A number that is kept in SI, cents or plain.
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

/// "must be more than 0 mm and at most 10 mm".
[[nodiscard]] inline std::string allowed_text(const allowed_range& r, const notation& write) {
    constexpr long double inf = std::numeric_limits<long double>::infinity();
    const bool low = r.low > -inf, high = r.high < inf;
    if (!low && !high) { return joined({"must be a finite number"}); }
    const char* const from = !low ? "" : r.low_open ? "more than " : "at least ";
    const char* const to = !high ? "" : r.high_open ? "less than " : "at most ";
    return joined({"must be ", from, low ? write(r.low) : std::string(), low && high ? " and " : "", to,
                   high ? write(r.high) : std::string()});
}
/// The plain number under a Real for a message; a pack has no single one and gives "not a number".
template <class R>
[[nodiscard]] long double plain_value(const R& v) {
    if constexpr (requires { static_cast<long double>(value_of(v)); }) {
        return static_cast<long double>(value_of(v));
    } else {
        return std::numeric_limits<long double>::quiet_NaN();
    }
}
/// A number as a sentence tells it, or not where there is no single one.
struct shown_number {
    long double value = 0;
    bool shown = false;
};
/// The plain number under a Real where a sentence can do without: none of a pack.
template <class R>
[[nodiscard]] shown_number shown_value(const R& v) {
    if constexpr (requires { static_cast<long double>(value_of(v)); }) {
        return {plain_value(v), true};
    } else {
        return {};
    }
}
/// What is wrong with a number outside its range; without a value the sentence names the range only.
[[nodiscard]] inline problem out_of_range(std::string_view field, const shown_number& number, const allowed_range& r,
                                          const notation& write) {
    std::string allowed = allowed_text(r, write);
    // Within what the range says, but no size that anything has.
    if (number.shown && all_finite(number.value) && r.holds_limits(number.value)) {
        const bool small = r.low_open && r.low == 0 && number.value < r.least;
        const char* const side = small ? "at least " : number.value < 0 ? "at least -" : "at most ";
        allowed = joined({"must be a size that can be: ", side, write(small ? r.least : r.most)});
    }
    return {joined({field}), number.shown ? write(number.value) : std::string(), std::move(allowed)};
}
/// Throws `invalid_input` of one problem in words.
[[noreturn]] inline void refuse(std::string_view field, std::string_view value, std::string_view allowed) {
    throw invalid_input(problem{joined({field}), joined({value}), joined({allowed})});
}
/// Throws `invalid_input` of one number outside its range.
[[noreturn]] inline void refuse(std::string_view field, const shown_number& number, const allowed_range& r,
                                const notation& write) {
    throw invalid_input(out_of_range(field, number, r, write));
}

} // namespace messages

/// Passes a quantity that lies in its range; else throws `invalid_input` naming the field, the value and the range.
template <class U, class R>
constexpr void require(std::string_view field, const bu::quantity<U, R>& q, const range_of<std::type_identity_t<U>>& r) {
    if (!r.holds(q.value())) { messages::refuse(field, messages::shown_value(q.value()), r, messages::notation_of<U>); }
}
/// What the compiler answers when the range is of another kind than the quantity.
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
/// Passes when a rule holds; else throws `invalid_input` with the field and the rule in words ("must be ...").
constexpr void require_that(bool holds, std::string_view field, std::string_view rule) {
    if (!holds) { messages::refuse(field, "", rule); }
}

} // namespace tautline
