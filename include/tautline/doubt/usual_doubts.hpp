#pragma once
/// @file
/// One table of how far off measurements at the bench usually are: for readings and for inputs whose doubt nobody stated.
/// It also tells which inputs are doubted by a share of themselves.
///
/// Common practice, no source, except for the woods. Published moduli of a species scatter by 22 % (coefficient of
/// variation, USDA Forest Products Laboratory, Wood Handbook, ch. 5, from memory); eleven species measured for ASTM D2555
/// have 13 to 23 %, 19.7 in the mean. A wood of the table brings its own doubt (`modulus_doubt`), a measured one that of
/// its method (`measured_doubt`).

#include <cmath>
#include <optional>
#include <string>
#include <string_view>

#include "../core/path_pattern.hpp"
#include "../neck/modulus_method.hpp"
#include "../strings/string_names.hpp"

namespace tautline {

/// How far off a measurement usually is, at about 95 %.
struct usual_doubt {
    std::string_view pattern{}; ///< pattern of the paths that it covers, as `result_meaning` has them
    double give_or_take = 0;    ///< in SI, cents or plain numbers
    double share = 0;           ///< as a share of what is measured; the larger of the two counts
    bool by_share = false;      ///< whether it is positive by nature and doubted by a share of itself
    std::string_view words{};   ///< for an input: "{s}" stands for its string, "{1}" for its place in a list, from 1
};

namespace kernel {

/// A `usual_doubt` as the table holds it.
struct usual_doubt_row {
    const char* pattern;
    double give_or_take = 0, share = 0;
    bool by_share = false;
    const char* words = "";
};
inline constexpr double usual_angle = 0.0174532925; // one degree
inline constexpr usual_doubt_row usual_doubts[] = {
    // Readings on the strung or the slack instrument.
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
    // What is known of woods, joints and tops, mostly by a share.
    {"neck.board_modulus", 0, 0.44, true, "modulus of the board"},
    {"neck.back_modulus", 0, 0.44, true, "modulus of the neck's back"},
    {"neck.pure_bending_factor", 2 * pure_bending::standard, 0, true, "pure bending over bending tests"},
    {"neck.joint_stiffness", 0, 1, true, "stiffness of the neck's joint"},
    {"soundboard.sink_stiffness", 0, 0.2, true, "stiffness of the soundboard"},
    {"soundboard.turn_stiffness", 0, 0.4, true, "the soundboard's stiffness against turning"},
    {"neck.inserts[].modulus", 0, 0.2, true, "modulus of insert {1}"},
    {"neck.inserts[].top", 0.5e-3, 0, false, "depth of insert {1}"},
    {"neck.slots.bearing", 0.3, 0, false, "how tightly the fret slots are filled"},
    {"neck.slots.depth", 0.2e-3, 0, false, "depth of the fret slots"},
    {"neck.slots.interference", 0.02e-3, 0, false, "what the tangs are wider than their slots"},
    {"neck.slots.wedging", 0.1, 0, false, "what lasts of the tangs' wedging"},
    {"neck.rod_pull", 100, 0.3, false, "pull of the rod"},
    {"neck.back_exponent", 0.3, 0, false, "roundness of the neck's back"},
    // What calipers and feelers measure.
    {"board.thickness", 0.2e-3, 0, false, "thickness of the board"},
    {"board.width_at_nut", 0.2e-3, 0, false, "width of the board at the nut"},
    {"board.width_at_end", 0.2e-3, 0, false, "width of the board at its end"},
    {"board.scale.scale_length", 0.5e-3, 0, false, "scale length"},
    {"board.scale.fan.bass_places", 0.2e-3, 0, false, "place of fret {1} along the bass edge"},
    {"board.scale.fan.treble_places", 0.2e-3, 0, false, "place of fret {1} along the treble edge"},
    {"board.scale.fan.nut_slant", 0.3e-3, 0, false, "slant of the nut"},
    {"board.scale.fan.bass_scale", 0.5e-3, 0, false, "scale of the outermost bass string"},
    {"board.scale.fan.treble_scale", 0.5e-3, 0, false, "scale of the outermost treble string"},
    {"board.surface", 0, 0.05, false, "arc of the board"},
    {"frets.wire", 0.02e-3, 0, false, "crowns of the frets"},
    {"frets.wear", 0.03e-3, 0, false, "wear of fret {1}"},
    {"frets.wear_bass", 0.03e-3, 0, false, "wear of fret {1} at its bass end"},
    {"frets.wear_treble", 0.03e-3, 0, false, "wear of fret {1} at its treble end"},
    {"frets.zero_crown", 0.02e-3, 0, false, "crown of the zero fret"},
    {"neck.depth_at_nut", 0.2e-3, 0, false, "depth of the neck at the nut"},
    {"neck.depth_at_joint", 0.2e-3, 0, false, "depth of the neck at its joint"},
    {"neck.traced[].profile[].depth", 0.3e-3, 0, false, "back as traced at place {1}"},
    {"neck.set[].z", 0.03e-3, 0, false, "set of the neck at mark {1}"},
    {"neck.set_bass[].z", 0.03e-3, 0, false, "set of the neck's bass edge at mark {1}"},
    {"neck.set_treble[].z", 0.03e-3, 0, false, "set of the neck's treble edge at mark {1}"},
    {"nut.slot_heights[]", 0.05e-3, 0, false, "nut slot of {s}"},
    {"short_strings[].across", 0.2e-3, 0, false, "place of the nut of {s}"},
    {"nut.spacing", 0.2e-3, 0, false, "spacing at the nut"},
    {"saddle.spacing", 0.3e-3, 0, false, "spacing at the saddle"},
    {"saddle.height_bass", 0.1e-3, 0, false, "saddle's height at the bass"},
    {"saddle.height_treble", 0.1e-3, 0, false, "saddle's height at the treble"},
    {"saddle.slot_offsets[]", 0.05e-3, 0, false, "saddle slot of {s} off the top's line"},
    {"saddle.single[].height", 0.1e-3, 0, false, "height of the saddle of {s}"},
    {"saddle.single[].setback", 0.5e-3, 0, false, "setback of the saddle of {s}"},
    {"saddle.board_line", 0.3e-3, 0, false, "board's line at the saddle"},
    {"saddle.setback_bass", 0.5e-3, 0, false, "saddle's setback at the bass"},
    {"saddle.setback_treble", 0.5e-3, 0, false, "saddle's setback at the treble"},
    {"saddle.radius", 0, 0.05, false, "radius of the saddle"},
    {"tailpiece", 1e-3, 0, false, "place of the tailpiece"},
    {"pins", 0.5e-3, 0, false, "place of the pins"},
    {"pins.top_slope", 0.5 * usual_angle, 0, false, "slope of the soundboard under the bridge"},
    {"tie_block", 0.3e-3, 0, false, "holes of the tie block"},
    {"tie_block.top_slope", 0.5 * usual_angle, 0, false, "slope of the soundboard under the bridge"},
    {"pressing_bar", 0.5e-3, 0, false, "place of the pressing bar"},
    {"body_bridge", 0.5e-3, 0, false, "place of the bridge's anchors"},
    {"playing.finger.behind", 6e-3, 0, false, "how far behind the fret a finger presses"},
    {"playing.finger.depth", 0.1e-3, 0, false, "how deep a finger presses"},
    {"playing.nut_end", 0.3, 0, false, "how firmly the nut holds the strings' bending"},
    {"playing.fret_end", 0.3, 0, false, "how firmly a fret holds the strings' bending"},
    {"playing.saddle_end", 0.3, 0, false, "how firmly the saddle holds the strings' bending"},
    {"strings[].gauge", 0.01e-3, 0, false, "gauge of {s}"},
    {"strings[].core", 0.01e-3, 0, false, "core of {s}"},
    {"strings[].core_flats", 0.01e-3, 0, false, "core of {s}"},
    {"strings[].inner_wire", 0.01e-3, 0, false, "inner wrap of {s}"},
    {"strings[].ground", 0.01e-3, 0, false, "what is ground off {s}"},
    // A kitchen scale shows whole grams. A rule lies along the string. The tension on a packet differs from that of its
    // string.
    {"strings[].weight", 0.5e-3, 0, false, "weight of {s}"},
    {"strings[].weight_length", 1e-3, 0, false, "length that was weighed of {s}"},
    {"strings[].packet_pull", 0, 0.03, false, "what the packet says of {s}"},
    {"strings[].string.core.diameter", 0.01e-3, 0, false, "gauge of {s}"},
    {"a4", 0.5, 0, false, "pitch of A4"},
    {"standard.a4", 0.5, 0, false, "pitch of A4"},
    {"rod_screw.anchor_give", 5e-3, 0, false, "give of the rod's anchors"},
    {"gauges[].zero", 0.02e-3, 0, false, "zero of a gauge"},
    {"states[].rod_turns", 0.03, 0, false, "turns of the rod"},
    {"states[].weight", 0, 0.01, false, "hung weight"},
    {"states[].air.humidity", 3, 0, false, "humidity of the air of a state"},
    {"season.measured_in.humidity", 3, 0, false, "humidity of the air that it was measured in"},
    {"season.bow", 1e-5, 0, false, "how much more the board grows than the back for 1 % of moisture"},
    {"season.top", 0.04e-3, 0, false, "how far the top rises for 1 % of moisture"},
};

/// Whether a number is 0 because there is no such thing: single strings have no gap within their courses, one string has
/// no spread, loops that are tied clear of a string lift nothing. Nobody measured it, and nothing about it is doubtful.
[[nodiscard]] constexpr bool is_none(std::string_view path, double value) {
    return value == 0 &&
           (path.ends_with(".course_gap") || path.ends_with(".spread") || path.ends_with("tie_block.loop_lift"));
}

} // namespace kernel

/// The usual doubt of a path; nothing where the table does not cover it.
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
    return usual_doubt{best->pattern, best->give_or_take, best->share, best->by_share, best->words};
}
/// The usual standard uncertainty of what is measured as `value`: half of the usual give or take. Both are in SI, cents
/// or plain numbers. Returns nothing where the table does not cover the path.
[[nodiscard]] inline std::optional<double> usual_standard(std::string_view path, double value) {
    const auto usual = usual_doubt_of(path);
    if (!usual) { return std::nullopt; }
    return std::max(usual->give_or_take, usual->share * std::abs(value)) / 2;
}
/// An input in words, such as "board's line at the saddle"; its path where the table has no words for it.
/// @param names what the strings are called; without them a string is told by its index
[[nodiscard]] inline std::string input_in_words(std::string_view path, const string_names& names = {}) {
    const auto usual = usual_doubt_of(path);
    if (!usual || usual->words.empty()) { return std::string(path); }
    std::string words;
    for (std::size_t i = 0; i < usual->words.size(); ++i) {
        if (usual->words[i] != '{') {
            words += usual->words[i];
            continue;
        }
        const std::size_t place = kernel::item_of(path, 0).value_or(0);
        words += usual->words[i + 1] == 's' ? names.name(place) : messages::joined({place + 1});
        i += 2;
    }
    // Where the table covers a part as a whole, tells which of its numbers this is.
    const std::size_t named = kernel::covered(usual->pattern, path);
    if (named < path.size() && path[named] == '.') {
        words += " (";
        for (const char c : path.substr(named + 1)) { words += c == '_' || c == '.' ? ' ' : c; }
        words += ')';
    }
    return words;
}

} // namespace tautline
