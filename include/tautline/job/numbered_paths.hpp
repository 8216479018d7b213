#pragma once
/// @file
/// Paths and the strings they are about: which string it is, what it is called, and paths by the string's number.

#include <optional>
#include <string>
#include <string_view>

#include "../core/path_pattern.hpp"
#include "../strings/string_names.hpp"

namespace tautline {

/// Which string a path is about, counted from 0: the first number in brackets after a list with an entry for each string.
/// Nothing where it is about none or about all.
[[nodiscard]] constexpr std::optional<std::size_t> string_of_path(std::string_view path) {
    const std::size_t bracket = path.find('[');
    if (bracket == std::string_view::npos) { return std::nullopt; }
    const std::string_view list = path.substr(0, bracket);
    for (const std::string_view one_each :
         {"strings", "posts", "short_strings", "slot_change", "saddle_height", "saddle_change", "pin_places"}) {
        if (list == one_each || (list.ends_with(one_each) && list[list.size() - one_each.size() - 1] == '.')) {
            return kernel::item_of(path, 0);
        }
    }
    return std::nullopt;
}
/// The path of a name that gives its string by number: "strings[0].tension" for "string 6.tension" or, with its state,
/// "found.string 4a.tension". Any other name stays as it is. Nothing where there is no such string; `string_names::range`
/// tells which there are.
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
/// A path with the string that it is about beside it: "strings[0].tension (6 E2)".
/// @param slots how many nut slots the instrument lists; a single one serves all strings and is about none
[[nodiscard]] inline std::string path_with_string(std::string_view path, const string_names& names, std::size_t slots = 1) {
    const bool of_slots = path.find("slot_heights[") != std::string_view::npos;
    const auto i = !of_slots ? string_of_path(path) : slots > 1 ? kernel::item_of(path, 0) : std::nullopt;
    const std::string label = i ? names.label(*i) : std::string();
    return messages::joined({path, label.empty() ? "" : " (", label, label.empty() ? "" : ")"});
}

} // namespace tautline
