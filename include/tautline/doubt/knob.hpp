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

/// Values that a knob may be given by its ends.
inline constexpr std::size_t most_knob_values = 100'000;
/// Variants that a table may have; a day of them at some ten thousand a second is nobody's question.
inline constexpr std::size_t most_variants = 2'000'000;

/// A number of the model that a sweep turns, and the values it goes through: `{"saddle.height_bass", {12 * mm, 13 * mm}}`.
struct knob {
    std::string path{};                 ///< "saddle.height_bass", "strings[0].string.core.diameter"
    std::vector<any_quantity> values{}; ///< in the order they are taken, all of the kind of the number
};
/// A knob that goes from one value to another in equal steps, both ends included; `count` of 1 takes the first alone.
/// @throws invalid_input where they are of two kinds
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

/// A knob that goes in equal steps as somebody types them: from "12 mm", to "14 mm", so many values.
/// @param kind what the number measures
/// @param what what is varied, for the message
/// @throws invalid_input for an end that is not of the kind, and for a count that is not 1 to `most_knob_values`
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

/// A knob that goes through values as somebody types them, parted by commas: "432 Hz, 440 Hz".
/// @param kind what the number measures
/// @param what what the values are of, for the message
/// @throws invalid_input for a value that is none of the kind
[[nodiscard]] inline knob knob_through(std::string path, kind_name kind, std::string_view values, std::string_view what) {
    knob k{std::move(path), {}};
    for (std::size_t comma = 0; comma != std::string_view::npos;) {
        comma = values.find(',');
        k.values.push_back(any_from_text(kind, spelling::trimmed(values.substr(0, comma)), what));
        values.remove_prefix(comma == std::string_view::npos ? 0 : comma + 1);
    }
    return k;
}

/// How many variants knobs make together: every value of each with every value of the others.
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
