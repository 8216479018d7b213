#pragma once
/// @file
/// What a repairer should be told about a setup: data that programs filter and sheets print.

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "../core/quantity.hpp"

namespace tautline {

/// What was found.
enum class finding_kind {
    core_near_strength,     ///< core stress close to the wire's least strength
    core_over_strength,     ///< core stress at or over the wire's least strength
    strength_unknown,       ///< no strength is known for a core's material
    lifts_off_nut,          ///< nothing presses the string into its slot
    lifts_off_saddle,       ///< nothing presses the string onto the saddle
    open_string_touches,    ///< the open string lies on a fret
    pressed_string_touches, ///< pressed at a fret, the string lies on a later one
    back_bow,               ///< the neck stands back from the strings under load
    string_off_board,       ///< the string runs beyond the edge of the board
    bridge_tips,            ///< the pull on a floating bridge falls outside its feet
    bridge_slides,          ///< a floating bridge's feet need more friction than they have at least
};

/// How much it matters.
enum class severity {
    note,    ///< worth knowing
    warning, ///< will be heard or felt, or shortens a part's life
    stop,    ///< do not string it up like this
};

/// The number a finding is about, in its kind.
using finding_value = std::variant<std::monostate, double, length<double>, force<double>, stress<double>, angle<double>>;

/// One finding. Strings and frets count from 1, as at the bench; string 1 is the first in the instrument's list.
struct finding {
    finding_kind kind{};           ///< what it is about
    tautline::severity severity{}; ///< how bad it is
    std::optional<int> string{};   ///< from 1; absent where it is not about one string
    std::optional<int> fret{};     ///< from 1; absent where it is not about one fret
    finding_value number{};        ///< what was found
    finding_value limit{};         ///< what it was held against
    std::string sentence{};        ///< for the repairer
};

/// Whether any finding says that the setup must not be strung up as it is.
[[nodiscard]] inline bool any_stop(const std::vector<finding>& findings) {
    for (const finding& f : findings) {
        if (f.severity == severity::stop) { return true; }
    }
    return false;
}

} // namespace tautline
