#pragma once
/// @file
/// Problems of the neck that is made from an instrument, told in terms of what was measured on the instrument.

#include <string>
#include <string_view>
#include <vector>

#include "../core/invalid_input.hpp"

namespace tautline {

namespace kernel {

/// A number of a neck's section: the instrument's field that it comes from at the nut and further on, and its name in
/// words.
struct section_number {
    std::string_view name{}, at_nut{}, further{}, words{};
};
inline constexpr section_number section_numbers[] = {
    {"half_width", "board.width_at_nut", "board.width_at_end", "half the width"},
    {"board_thickness", "board.thickness", "board.thickness", "the board's thickness"},
    {"board_arc", "board.surface.radius", "board.surface.radius", "the board's arc"},
    {"back_depth", "neck.depth_at_nut", "neck.depth_at_joint", "the back's depth under the board"},
    {"x", "neck.joint_fret", "neck.joint_fret", "the place along the neck"},
};

} // namespace kernel

/// Carries problems of the neck that `neck_of` makes ("neck.stations[0].back_depth") over to the instrument's own fields
/// ("neck.depth_at_nut"). All other problems stay as they are.
/// @param stations how many sections the neck has
[[nodiscard]] inline std::vector<problem> named_by_measures(std::vector<problem> problems, std::size_t stations) {
    constexpr std::string_view list = "neck.stations[";
    for (problem& p : problems) {
        if (p.field == "neck.joint") { p.field = "neck.joint_fret"; }
        if (p.field == "neck.slots.tang_depth") { p.field = "neck.slots.depth"; }
        if (!p.field.starts_with(list)) { continue; }
        const std::string_view field = p.field;
        const std::size_t end = field.find(']');
        const std::string_view place = field.substr(list.size(), end - list.size());
        for (const kernel::section_number& n : kernel::section_numbers) {
            if (!field.ends_with(messages::joined({".", n.name}))) { continue; }
            const bool first = place == "0", last = place == messages::joined({stations - 1});
            const char* const where = first ? "at the nut " : last ? "at the joint " : "between nut and joint ";
            p.allowed = messages::joined({"must be otherwise: ", where, n.words, p.value.empty() ? " " : " is ", p.value,
                                          p.value.empty() ? "" : ", which ", p.allowed});
            p.value.clear();
            p.field = messages::joined({first ? n.at_nut : n.further});
            break;
        }
    }
    return problems;
}

} // namespace tautline
