#pragma once
/// @file
/// A quantity from its text, where the kind is known at run time only: what somebody typed for a number of a model.

#include <optional>
#include <string>
#include <string_view>

#include "any_quantity.hpp"
#include "quantity_text.hpp"
#include "when_used.hpp"

namespace tautline {

namespace kernel {

/// Calls `f.operator()<U>()` for the unit whose kind has the name, if quantities of it can be typed.
template <class F>
void with_spelled_kind(kind_name name, F&& f) {
    (void)with_kind(name, [&]<class U>() {
        if constexpr (requires { spelling::of<U>::list; }) { f.template operator()<U>(); }
    });
}

} // namespace kernel

/// A quantity of a kind from its text: "12 thou" as a length, "-3" or "-3 cents" as an interval, "-3" as a plain
/// number. Nothing where the text is not of that kind, and where there is no such kind.
template <class When = when_used>
[[nodiscard]] std::optional<any_quantity> parse_any(kind_name kind, std::string_view text) {
    when_used_t<std::optional<any_quantity>, When> q;
    if (kind == "number" || kind == "interval") {
        const auto v = take_number(text);
        const std::string_view unit = spelling::trimmed(text);
        if (v && (unit.empty() || (kind == "interval" && unit == "cents"))) { q = any_quantity::of(kind, *v); }
        return q;
    }
    kernel::with_spelled_kind(kind, [&]<class U>() {
        if (const auto typed = parse_quantity<bu::quantity<U, double>>(text)) { q = any_quantity(*typed); }
    });
    return q;
}
TAUTLINE_HELD(std::optional<any_quantity> parse_any<>(kind_name, std::string_view))

/// A measured quantity whose kind is known at run time only.
struct any_measured {
    any_quantity best{};         ///< the reading itself
    any_quantity give_or_take{}; ///< half width of the interval at about 95 %; nothing where none was given
};

/// A measured quantity of a kind from its text: "0.30 ± 0.05 mm" as a length, "-3 ± 2 cents" or "-3 ± 2" as an
/// interval. Nothing where the text is not of that kind, and where there is no such kind.
template <class When = when_used>
[[nodiscard]] std::optional<any_measured> parse_any_measured(kind_name kind, std::string_view text) {
    when_used_t<std::optional<any_measured>, When> q;
    if (kind == "number" || kind == "interval") {
        std::string_view sign, cents = kind == "interval" ? "cents" : "";
        const auto best = take_number(text);
        const auto take = [&](std::string_view word) {
            text = spelling::trimmed(text);
            if (word.empty() || !text.starts_with(word)) { return false; }
            text.remove_prefix(word.size());
            text = spelling::trimmed(text);
            return true;
        };
        (void)take(cents);
        for (const std::string_view s : {std::string_view("\u00b1"), std::string_view("+-"), std::string_view("+/-")}) {
            if (sign.empty() && take(s)) { sign = s; }
        }
        any_quantity give_or_take;
        if (!sign.empty()) {
            const auto doubt = take_number(text);
            (void)take(cents);
            if (!doubt || *doubt < 0) { return q; }
            give_or_take = any_quantity::of(kind, *doubt);
        }
        if (!best || !spelling::trimmed(text).empty()) { return q; }
        q = any_measured{any_quantity::of(kind, *best), give_or_take};
        return q;
    }
    kernel::with_spelled_kind(kind, [&]<class U>() {
        if (const auto typed = parse_measured<bu::quantity<U, double>>(text)) {
            const bool said = typed->give_or_take.value() > 0 || !parse_quantity<bu::quantity<U, double>>(text);
            q = any_measured{any_quantity(typed->best), said ? any_quantity(typed->give_or_take) : any_quantity()};
        }
    });
    return q;
}
TAUTLINE_HELD(std::optional<any_measured> parse_any_measured<>(kind_name, std::string_view))

/// What to type for a kind, for a message: "a length with its unit (mm, cm, ...)", "a number of cents", "a number".
template <class = when_used>
[[nodiscard]] std::string typed_as(kind_name kind) {
    if (kind == "interval") { return "a number of cents"; }
    std::string units;
    kernel::with_spelled_kind(kind, [&]<class U>() { units = unit_names<bu::quantity<U, double>>(); });
    if (units.empty()) { return "a number"; }
    std::string name(kind);
    for (char& c : name) { c = c == '_' ? ' ' : c; }
    return messages::joined({name.front() == 'a' ? "an " : "a ", name, " with its unit (", units, ")"});
}
TAUTLINE_HELD(std::string typed_as<>(kind_name))

/// A quantity of a kind from its text, as `parse_any` reads it; any other text is an error.
/// @param what what the text tells, for the message
/// @throws invalid_input that names the text and what to type
template <class = when_used>
[[nodiscard]] any_quantity any_from_text(kind_name kind, std::string_view text, std::string_view what) {
    const auto q = parse_any(kind, text);
    if (!q) {
        throw invalid_input(problem{std::string(what), messages::joined({"\"", text, "\""}),
                                    messages::joined({"must be ", typed_as(kind), about_fractions(text)})});
    }
    return *q;
}
TAUTLINE_HELD(any_quantity any_from_text<>(kind_name, std::string_view, std::string_view))

} // namespace tautline
