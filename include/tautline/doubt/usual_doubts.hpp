#pragma once
/// @file
/// How far off measurements of the bench usually are, for readings and for inputs whose doubt nobody stated, and which
/// inputs are doubted by a share of themselves: one table.
///
/// Common practice, no source, but for the woods: published moduli of a species scatter by 22 % (coefficient of variation,
/// USDA Forest Products Laboratory, Wood Handbook, ch. 5, from memory).

#include <cmath>
#include <optional>
#include <string_view>

#include "../core/path_pattern.hpp"

namespace tautline {

/// How far off a measurement usually is, about 95 %.
struct usual_doubt {
    std::string_view pattern{}; ///< paths it speaks of, as `result_meaning` has them
    double give_or_take = 0;    ///< in SI, cents or plain numbers
    double share = 0;           ///< or this share of what is measured, whichever is more
    bool by_share = false;      ///< it is positive by nature and doubted by a share of itself
};

namespace kernel {

/// A `usual_doubt` as it is written down here.
struct usual_doubt_row {
    const char* pattern;
    double give_or_take = 0, share = 0;
    bool by_share = false;
};
inline constexpr double usual_angle = 0.0174532925; // a degree
inline constexpr usual_doubt_row usual_doubts[] = {
    // Readings of the strung or the slack instrument.
    {"relief.gap", 0.05e-3},
    {"strings[].heights[]", 0.05e-3},
    {"strings[].gap", 0.1e-3},
    {"top.drop", 0.1e-3},
    {"top.sink", 0.1e-3},
    {"line_at_saddle", 0.3e-3},
    {"strings[].notes[].error", 2},
    {"strings[].at_saddle.break_angle", usual_angle},
    {"strings[].at_nut.break_angle", usual_angle},
    {"nut_drop", 0.02e-3},
    {"tailpiece_rise", usual_angle},
    {"strings[].octave_setback", 0.5e-3},
    // What is known of woods, joints and tops, by a share.
    {"neck.board_modulus", 0, 0.44, true},
    {"neck.back_modulus", 0, 0.44, true},
    {"neck.joint_stiffness", 0, 1, true},
    {"soundboard.sink_stiffness", 0, 0.2, true},
    {"soundboard.turn_stiffness", 0, 0.4, true},
    {"neck.rod_pull", 100, 0.3},
    {"neck.back_exponent", 0.3},
    // What calipers and feelers tell.
    {"board.thickness", 0.2e-3},
    {"board.width_at_nut", 0.2e-3},
    {"board.width_at_end", 0.2e-3},
    {"board.scale.scale_length", 0.5e-3},
    {"board.surface", 0, 0.05},
    {"frets.wire", 0.02e-3},
    {"frets.wear", 0.03e-3},
    {"neck.depth_at_nut", 0.2e-3},
    {"neck.depth_at_joint", 0.2e-3},
    {"neck.set[].z", 0.03e-3},
    {"nut.slot_heights[]", 0.05e-3},
    {"nut.spacing", 0.2e-3},
    {"saddle.spacing", 0.3e-3},
    {"saddle.height_bass", 0.1e-3},
    {"saddle.height_treble", 0.1e-3},
    {"saddle.board_line", 0.3e-3},
    {"saddle.setback_bass", 0.5e-3},
    {"saddle.setback_treble", 0.5e-3},
    {"saddle.radius", 0, 0.05},
    {"tailpiece", 1e-3},
    {"pins", 0.5e-3},
    {"body_bridge", 0.5e-3},
    {"playing.finger.behind", 6e-3},
    {"playing.finger.depth", 0.1e-3},
    {"playing.nut_end", 0.5},
    {"playing.fret_end", 0.5},
    {"playing.saddle_end", 0.5},
    {"strings[].string.core.diameter", 0.01e-3},
    {"standard.a4", 0.5},
    {"rod_screw.anchor_give", 5e-3},
    {"gauges[].zero", 0.02e-3},
    {"states[].rod_turns", 0.03},
    {"states[].weight", 0, 0.01},
};

} // namespace kernel

/// What is usual for a path; nothing where the table does not speak of it.
[[nodiscard]] constexpr std::optional<usual_doubt> usual_doubt_of(std::string_view path) {
    const kernel::usual_doubt_row* best = nullptr;
    std::size_t most = 0;
    for (const auto& row : kernel::usual_doubts) {
        if (const std::size_t n = kernel::covered(row.pattern, path); n > most) {
            best = &row;
            most = n;
        }
    }
    if (!best) { return std::nullopt; }
    return usual_doubt{best->pattern, best->give_or_take, best->share, best->by_share};
}
/// The usual standard uncertainty of what is measured as `value`, both in SI, cents or plain numbers: half of the usual
/// give or take. Nothing where the table does not speak of it.
[[nodiscard]] inline std::optional<double> usual_standard(std::string_view path, double value) {
    const auto usual = usual_doubt_of(path);
    if (!usual) { return std::nullopt; }
    return std::max(usual->give_or_take, usual->share * std::abs(value)) / 2;
}

} // namespace tautline
