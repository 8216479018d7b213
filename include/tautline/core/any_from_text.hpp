#pragma once
/// @file
/// A quantity from its text where the kind is known at run time only: what somebody typed for a number of a model.

#include <optional>
#include <string>
#include <string_view>

#include "any_quantity.hpp"
#include "quantity_text.hpp"

namespace tautline {

namespace kernel {

/// Calls `f.operator()<U>()` for the unit whose kind has the name, where its quantities can be typed.
template <class F>
constexpr void with_spelled_kind(kind_name name, F&& f) {
    (void)with_kind(name, [&]<class U>() {
        if constexpr (requires { spelling::of<U>::list; }) { f.template operator()<U>(); }
    });
}

} // namespace kernel

/// "12 thou" as a length, "-3" as an interval of cents or a plain number. Nothing where the text is no such thing, and
/// where there is no such kind.
[[nodiscard]] constexpr std::optional<any_quantity> parse_any(kind_name kind, std::string_view text) {
    std::optional<any_quantity> q;
    if (kind == "number" || kind == "interval") {
        const auto v = take_number(text);
        if (v && spelling::trimmed(text).empty()) { q = any_quantity::of(kind, *v); }
        return q;
    }
    kernel::with_spelled_kind(kind, [&]<class U>() {
        if (const auto typed = parse_quantity<bu::quantity<U, double>>(text)) { q = any_quantity(*typed); }
    });
    return q;
}

/// What is typed for a kind, for a message: "a length with its unit (mm, cm, ...)", "a number of cents", "a number".
[[nodiscard]] inline std::string typed_as(kind_name kind) {
    if (kind == "interval") { return "a number of cents"; }
    std::string units;
    kernel::with_spelled_kind(kind, [&]<class U>() { units = unit_names<bu::quantity<U, double>>(); });
    if (units.empty()) { return "a number"; }
    std::string name(kind);
    for (char& c : name) { c = c == '_' ? ' ' : c; }
    return messages::joined({name.front() == 'a' ? "an " : "a ", name, " with its unit (", units, ")"});
}

/// A quantity of a kind from its text, where a text that is none is a mistake.
/// @param what what the text tells, for the message
/// @throws invalid_input that names it and what is to be typed
[[nodiscard]] inline any_quantity any_from_text(kind_name kind, std::string_view text, std::string_view what) {
    const auto q = parse_any(kind, text);
    if (!q) {
        throw invalid_input(problem{std::string(what), messages::joined({"\"", text, "\""}),
                                    messages::joined({"must be ", typed_as(kind)})});
    }
    return *q;
}

} // namespace tautline
