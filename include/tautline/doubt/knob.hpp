#pragma once
/// @file
/// A number that is varied: its path, and the values it goes through.

#include <algorithm>
#include <cmath>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "../core/any_from_text.hpp"

namespace tautline {

/// Most values that a knob given by its two ends may have.
inline constexpr std::size_t most_knob_values = 100'000;
/// Most variants that a table may have.
inline constexpr std::size_t most_variants = 2'000'000;

/// A number of the model that a sweep varies, and the values it takes: `{"saddle.height_bass", {12 * mm, 13 * mm}}`.
struct knob {
    std::string path{};                 ///< of the number, such as "saddle.height_bass"
    std::vector<any_quantity> values{}; ///< in the order in which they are taken, all of the number's kind
};
/// A knob that goes from one value to another in equal steps, with both ends included. A `count` of 1 takes the first
/// alone.
/// @throws invalid_input where the two values are of different kinds
[[nodiscard]] inline knob knob_between(std::string path, const any_quantity& from, const any_quantity& to,
                                       std::size_t count) {
    knob k{std::move(path), {}};
    const double a = from.si(), way = (to - from).si();
    for (std::size_t i = 0; i < count; ++i) {
        const double v = i == 0 ? a : a + way * static_cast<double>(i) / static_cast<double>(count - 1);
        k.values.push_back(any_quantity::of(from.kind(), v));
    }
    return k;
}

/// A knob that goes in equal steps, from typed text: "12 mm", "14 mm" and the number of values.
/// @param kind what the number measures
/// @param what what is varied, for the message
/// @throws invalid_input for an end that is not of the kind, or a count that is not a whole number from 1 to
/// `most_knob_values`
[[nodiscard]] inline knob knob_between(std::string path, kind_name kind, std::string_view from, std::string_view to,
                                       std::string_view count, std::string_view what) {
    const auto part = [&](std::string_view which) { return messages::joined({what, which}); };
    const any_quantity first = any_from_text(kind, from, part(", from,")), last = any_from_text(kind, to, part(", to,"));
    const double n = any_from_text("number", count, part(", how many,")).si();
    if (!(n >= 1 && n <= static_cast<double>(most_knob_values)) || n != std::floor(n)) {
        throw invalid_input(problem{
            part(", how many,"), messages::joined({"\"", count, "\""}),
            messages::joined({"must be a whole number, 1 to ", number_text(static_cast<long double>(most_knob_values))})});
    }
    return knob_between(std::move(path), first, last, static_cast<std::size_t>(n));
}

/// A knob that takes values from typed text, separated by commas: "432 Hz, 440 Hz".
/// @param kind what the number measures
/// @param what what the values are of, for the message
/// @throws invalid_input for a value that is not of the kind
[[nodiscard]] inline knob knob_through(std::string path, kind_name kind, std::string_view values, std::string_view what) {
    knob k{std::move(path), {}};
    for (std::size_t comma = 0; comma != std::string_view::npos;) {
        comma = values.find(',');
        k.values.push_back(any_from_text(kind, spelling::trimmed(values.substr(0, comma)), what));
        values.remove_prefix(comma == std::string_view::npos ? 0 : comma + 1);
    }
    return k;
}

/// How many variants knobs make together: every value of each knob with every value of the others.
/// @throws invalid_input where that is more than `most_variants`
[[nodiscard]] inline std::size_t variants_of(std::span<const knob> knobs) {
    std::size_t count = 1;
    for (const knob& k : knobs) {
        require_that(k.values.size() <= most_variants / std::max(count, std::size_t{1}), "what is varied",
                     messages::joined({"must make at most ", number_text(static_cast<long double>(most_variants)),
                                       " variants together"}));
        count *= k.values.size();
    }
    return count;
}

} // namespace tautline
