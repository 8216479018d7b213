#pragma once
/// @file
/// Reads and prints quantities as the trade writes them: "25 1/2 in", "5/64 in", "12 thou", "43 mm", "9.5 deg".

#include <cmath>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "invalid_input.hpp"
#include "unit_spellings.hpp"
#include "units.hpp"

namespace tautline {

namespace spelling {

constexpr bool is_space(char c) { return c == ' ' || c == '\t'; }
constexpr bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// Reads from the front of a text.
struct cursor {
    std::string_view rest;

    constexpr void skip_spaces() {
        while (!rest.empty() && is_space(rest.front())) { rest.remove_prefix(1); }
    }
    constexpr bool take(char c) {
        if (rest.empty() || rest.front() != c) { return false; }
        rest.remove_prefix(1);
        return true;
    }
    /// Digits with at most one decimal point; takes nothing when there are none. At most 18 digits, so that none is
    /// lost.
    constexpr std::optional<long double> plain_number() {
        long double value = 0, place = 1;
        int digits = 0;
        bool point = false;
        std::string_view at = rest;
        for (; !at.empty() && (is_digit(at.front()) || (at.front() == '.' && !point)); at.remove_prefix(1)) {
            if (at.front() == '.') {
                point = true;
            } else {
                value = value * 10 + (at.front() - '0');
                place *= point ? 10 : 1;
                ++digits;
            }
        }
        if (digits == 0 || digits > 18) { return std::nullopt; }
        rest = at;
        return value / place;
    }
    /// A power of ten behind a number, of at most two digits: "e-3", "E+12". Takes nothing when there is none.
    constexpr std::optional<long double> power_of_ten() {
        cursor at = *this;
        if (!at.take('e') && !at.take('E')) { return std::nullopt; }
        const bool negative = at.take('-');
        if (!negative) { at.take('+'); }
        int exponent = 0, digits = 0;
        for (; !at.rest.empty() && is_digit(at.rest.front()); at.rest.remove_prefix(1), ++digits) {
            if (digits == 2) { return std::nullopt; }
            exponent = exponent * 10 + (at.rest.front() - '0');
        }
        if (digits == 0) { return std::nullopt; }
        rest = at.rest;
        long double power = 1;
        for (; exponent > 0; --exponent) { power *= 10; }
        return negative ? 1 / power : power;
    }
};

} // namespace spelling

/// Takes a number off the front of a text, as it stands on a rule, on a caliper or in a table: "0.012", ".012", "25
/// 1/2", "25-1/2", "5/64", "-0.3", "1e-3". Nothing, with the text unchanged, when there is no number, when a divisor is
/// zero, or when it has over 18 digits. A power of ten has at most two digits. A fraction behind a number is less than 1
/// and of whole numbers, and so is the number before it: "1.5 7/8" and "5 12/8" give nothing.
[[nodiscard]] constexpr std::optional<double> take_number(std::string_view& text) {
    spelling::cursor c{text};
    c.skip_spaces();
    const bool negative = c.take('-');
    if (!negative) { c.take('+'); }
    const std::string_view digits = c.rest;
    std::optional<long double> value = c.plain_number();
    if (!value) { return std::nullopt; }
    const bool whole = digits.substr(0, digits.size() - c.rest.size()).find('.') == std::string_view::npos;
    if (c.take('/')) { // a bare fraction
        const auto under = c.plain_number();
        if (!under || *under == 0) { return std::nullopt; }
        *value /= *under;
    } else if (const auto power = c.power_of_ten()) {
        *value *= *power;
    } else { // perhaps a fraction after a whole number
        spelling::cursor ahead = c;
        if (ahead.take('-') || (!ahead.rest.empty() && spelling::is_space(ahead.rest.front()))) {
            ahead.skip_spaces();
            const std::string_view fraction = ahead.rest;
            const auto over_bar = ahead.plain_number();
            if (over_bar && ahead.take('/')) {
                const auto under = ahead.plain_number();
                if (under) { // otherwise a unit begins there: "5 1/m"
                    const auto spelled = fraction.substr(0, fraction.size() - ahead.rest.size());
                    const bool possible = whole && *over_bar < *under && spelled.find('.') == std::string_view::npos;
                    if (!possible) { return std::nullopt; }
                    *value += *over_bar / *under;
                    c = ahead;
                }
            }
        }
    }
    text = c.rest;
    return static_cast<double>(negative ? -*value : *value);
}

/// The spellings of a kind for a message: "mm, cm, m, in, ...".
template <class Q>
[[nodiscard]] std::string unit_names() {
    std::string text;
    for (const unit_spelling& u : spelling::of<typename Q::unit_type>::list) {
        messages::append(text, {text.empty() ? "" : ", ", u.spelled});
    }
    return text;
}

namespace spelling {

constexpr std::string_view trimmed(std::string_view text) {
    while (!text.empty() && is_space(text.front())) { text.remove_prefix(1); }
    while (!text.empty() && is_space(text.back())) { text.remove_suffix(1); }
    return text;
}
/// Size in SI of a unit of one kind by its spelling; nothing when it is not one.
template <class U>
constexpr std::optional<long double> size_of(std::string_view spelled) {
    for (const unit_spelling& u : of<U>::list) {
        if (spelled == u.spelled) { return u.size; }
    }
    return std::nullopt;
}

} // namespace spelling

/// A quantity of one kind from its text: `parse_quantity<length<>>("25 1/2 in")`. Nothing when the text is not a number
/// with one of the kind's units. A bare number gives nothing, since its unit is unknown.
template <class Q>
[[nodiscard]] constexpr std::optional<Q> parse_quantity(std::string_view text) {
    const std::optional<double> value = take_number(text);
    const auto size = spelling::size_of<typename Q::unit_type>(spelling::trimmed(text));
    if (!value || !size) { return std::nullopt; }
    return Q::from_value(number<typename Q::value_type>(static_cast<long double>(*value) * *size));
}

/// What a message says besides where text with a fraction was not taken; empty for text without one.
[[nodiscard]] constexpr std::string_view about_fractions(std::string_view text) {
    for (std::size_t i = 1; i + 1 < text.size(); ++i) {
        if (text[i] == '/' && spelling::is_digit(text[i - 1]) && spelling::is_digit(text[i + 1])) {
            return "; a fraction behind a number must be less than 1 and the number whole, as in 25 1/2";
        }
    }
    return {};
}

namespace kernel {

template <class Q>
void refuse_text(std::string_view text, std::string_view what) {
    std::string name(what.empty() ? kind<typename Q::unit_type>::name : what);
    for (char& c : name) { c = what.empty() && c == '_' ? ' ' : c; }
    messages::refuse(name, messages::joined({"\"", text, "\""}),
                     messages::joined({"must be a number with its unit (", unit_names<Q>(), ")", about_fractions(text)}));
}

} // namespace kernel

/// The same, but any other text is an error: throws `invalid_input` that names the text, what it should be and the
/// known units ("gauge is "12"; it must be a number with its unit (mm, cm, m, ...)").
/// @param what what the text tells, for the message; the kind's own name unless told otherwise
template <class Q>
[[nodiscard]] constexpr Q quantity_from_text(std::string_view text, std::string_view what = "") {
    const std::optional<Q> q = parse_quantity<Q>(text);
    if (!q) { kernel::refuse_text<Q>(text, what); }
    return *q;
}

/// A measured quantity: its best value, and the give or take on either side of it (coverage about 95 %).
template <class Q>
struct measured {
    Q best{};         ///< the reading itself
    Q give_or_take{}; ///< half width of the interval; 0 or more; 0 where none was given
};

/// A measured quantity from its text: "43 mm", "43 ± 0.1 mm", "0.3 mm +- 0.05", "25 1/2 in +/- 1/64 in". The unit may stand
/// behind either number or both. Nothing when the text is not of that form.
template <class Q>
[[nodiscard]] constexpr std::optional<measured<Q>> parse_measured(std::string_view text) {
    using R = typename Q::value_type;
    for (const std::string_view sign : {std::string_view("\u00b1"), std::string_view("+-"), std::string_view("+/-")}) {
        const std::size_t at = text.find(sign);
        if (at == std::string_view::npos) { continue; }
        std::string_view left = text.substr(0, at), right = text.substr(at + sign.size());
        const auto best = take_number(left), doubt = take_number(right);
        left = spelling::trimmed(left);
        right = spelling::trimmed(right);
        const auto unit_of_best = spelling::size_of<typename Q::unit_type>(left.empty() ? right : left);
        const auto unit_of_doubt = spelling::size_of<typename Q::unit_type>(right.empty() ? left : right);
        if (!best || !doubt || *doubt < 0 || !unit_of_best || !unit_of_doubt) { return std::nullopt; }
        return measured<Q>{Q::from_value(number<R>(*best * *unit_of_best)),
                           Q::from_value(number<R>(*doubt * *unit_of_doubt))};
    }
    if (const auto q = parse_quantity<Q>(text)) { return measured<Q>{*q, Q::from_value(number<R>(0))}; }
    return std::nullopt;
}

/// A quantity in a chosen unit with a fixed number of decimals: "1.85". A minus zero prints as zero.
template <class U>
[[nodiscard]] std::string fixed_text(const bu::quantity<U, double>& q, unit_tag<std::type_identity_t<U>> tag,
                                     int decimals) {
    double v = q / tag;
    if (std::abs(v) < 0.5 * std::pow(10.0, -decimals)) { v = 0; }
    char buffer[64];
    std::snprintf(buffer, sizeof buffer, "%.*f", decimals, v);
    return buffer;
}

/// A length in inches as a rule shows it, to the nearest 1/`parts` of an inch in lowest terms: "25 1/2", "5/64",
/// "-1/8", "0". `parts` is a power of two, 1 to 128.
[[nodiscard]] inline std::string inch_fraction_text(const length<double>& q, int parts = 64) {
    require_that(parts >= 1 && parts <= 128 && (parts & (parts - 1)) == 0, "parts", "must be a power of two up to 128",
                 parts);
    require_that(std::abs(q.value()) < 1e6, "length", "must be a finite number below 1000 km");
    const std::int64_t all_parts = std::llround(q / units::inch * parts);
    std::int64_t whole = std::abs(all_parts) / parts, over_bar = std::abs(all_parts) % parts, under = parts;
    while (over_bar > 0 && over_bar % 2 == 0) {
        over_bar /= 2;
        under /= 2;
    }
    const char* const sign = all_parts < 0 ? "-" : "";
    if (over_bar == 0) { return messages::joined({sign, whole}); }
    if (whole == 0) { return messages::joined({sign, over_bar, "/", under}); }
    return messages::joined({sign, whole, " ", over_bar, "/", under});
}

} // namespace tautline
