#pragma once
/// @file
/// Paths and the strings they speak of: which it is, what it is called, and a path by the string's number.

#include <optional>
#include <string>
#include <string_view>

#include "../core/path_pattern.hpp"
#include "../strings/string_names.hpp"

namespace tautline {

/// Which string a path speaks of, counted from 0: the first number in brackets after a list that has one entry for each
/// string. Nothing where it speaks of none, or of all.
[[nodiscard]] constexpr std::optional<std::size_t> string_of_path(std::string_view path) {
    const std::size_t bracket = path.find('[');
    if (bracket == std::string_view::npos) { return std::nullopt; }
    const std::string_view list = path.substr(0, bracket);
    for (const std::string_view one_each :
         {"strings", "posts", "short_strings", "slot_change", "saddle_height", "saddle_change"}) {
        if (list == one_each || (list.ends_with(one_each) && list[list.size() - one_each.size() - 1] == '.')) {
            return kernel::item_of(path, 0);
        }
    }
    return std::nullopt;
}
/// The path of a name that gives its string by number: "string 6.tension" and "found.string 4a.tension" for
/// "strings[0].tension"; any other name as it is. Nothing where there is no such string: `string_names::range` says which
/// there are.
[[nodiscard]] inline std::optional<std::string> path_by_number(std::string_view name, const string_names& names) {
    const std::size_t before = name.starts_with("string ") ? 0 : name.find(".string ");
    if (before == std::string_view::npos) { return std::string(name); }
    const std::string_view state = before == 0 ? name.substr(0, 0) : name.substr(0, before + 1);
    const std::string_view rest = name.substr(state.size() + std::string_view("string ").size());
    const std::string_view number = rest.substr(0, rest.find('.'));
    const auto i = names.place_of(number);
    if (!i) { return std::nullopt; }
    return messages::joined({state, messages::path_of("strings", *i), rest.substr(number.size())});
}
/// A path with the string it speaks of beside it: "strings[0].tension (6 E2)".
/// @param slots how many nut slots the instrument lists: one that serves all is of no string
[[nodiscard]] inline std::string path_with_string(std::string_view path, const string_names& names, std::size_t slots = 1) {
    const bool of_slots = path.find("slot_heights[") != std::string_view::npos;
    const auto i = !of_slots ? string_of_path(path) : slots > 1 ? kernel::item_of(path, 0) : std::nullopt;
    const std::string label = i ? names.label(*i) : std::string();
    return messages::joined({path, label.empty() ? "" : " (", label, label.empty() ? "" : ")"});
}

} // namespace tautline
