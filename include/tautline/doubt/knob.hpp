#pragma once
/// @file
/// A number that is varied: its path, and the values it goes through.

#include <string>
#include <string_view>
#include <vector>

#include "../core/any_from_text.hpp"

namespace tautline {

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

} // namespace tautline
