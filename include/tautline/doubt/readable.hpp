#pragma once
/// @file
/// What can be read on an instrument besides what it is described by. One table tells the paths, the kind of each, what
/// it is called, and how far off the model itself may be.

#include <optional>
#include <string>
#include <string_view>

#include "../core/invalid_input.hpp"
#include "../core/path_pattern.hpp"
#include "../strings/string_names.hpp"

namespace tautline {

/// What is read.
enum class readable {
    relief_gap,      ///< of the crests, at its largest
    height,          ///< of an open string over a fret
    gap,             ///< from a string down to something under it
    top_drop,        ///< how far the saddle comes down from slack to pitch
    top_sink,        ///< how far the soundboard comes down; differs from `top_drop` where the bridge turns
    line_at_saddle,  ///< of a straightedge on the frets: its height over the body at the saddle
    note,            ///< pressed at a fret: error by a tuner, in cents
    break_at_saddle, ///< angle of a string over the saddle
    break_at_nut,    ///< angle of a string over the nut
    nut_drop,        ///< how far the nut comes down under a hung weight
    tailpiece_rise,  ///< angle of a hinged tailpiece
    octave_setback,  ///< how much further back the saddle must go by ear
};

/// What is known of a thing that can be read.
struct readable_thing {
    readable what{};              ///< which one it is
    std::string_view noted{};     ///< its name in notes at the bench: "relief", "line at saddle"
    std::string_view path{};      ///< pattern of its path, with empty brackets
    std::string_view kind{};      ///< "length", "angle" or "interval" (in cents)
    std::string_view words{};     ///< "{s}" stands for the string, "{2}" for the fret
    double model = 0;             ///< standard uncertainty of the model itself, in SI or cents
    double model_share = 0;       ///< the same as a share of what is read; the larger counts
    int effort = 0;               ///< of two readings that tell the same the one with less effort is proposed
    bool without_strings = false; ///< whether it can be read with the strings off
};

namespace kernel {

/// A `readable_thing` as the table holds it. Doubts of the model are common practice, no source, except for the nut's
/// drop: solid finite elements of four necks differ from the beam by 0.7 % (tests/published/neck/finite_elements.cpp).
struct readable_row {
    readable what;
    const char *noted, *path, *kind, *words;
    double model = 0, model_share = 0;
    int effort = 0;
    bool without_strings = false;
};
inline constexpr readable_row readables[] = {
    {readable::relief_gap, "relief", "relief.gap", "length", "relief", 0.01e-3, 0, 1, true},
    {readable::height, "height", "strings[].heights[]", "length", "height over fret {2} of {s}", 0.01e-3, 0, 1},
    {readable::gap, "gap", "strings[].gap", "length", "gap under {s}", 0.01e-3, 0, 2},
    {readable::top_drop, "saddle sink", "top.drop", "length", "sink of the top at the saddle", 0.01e-3, 0, 3},
    {readable::top_sink, "top sink", "top.sink", "length", "sink of the top beside the bridge", 0.01e-3, 0, 3},
    {readable::line_at_saddle, "line at saddle", "line_at_saddle", "length", "line of the frets at the saddle", 0.01e-3, 0,
     1, true},
    {readable::note, "note", "strings[].notes[].error", "interval", "note at fret {2} of {s}", 1, 0, 2},
    {readable::break_at_saddle, "break", "strings[].at_saddle.break_angle", "angle", "break over the saddle of {s}", 0, 0,
     2},
    {readable::break_at_nut, "break", "strings[].at_nut.break_angle", "angle", "break at the nut of {s}", 0, 0, 2},
    {readable::nut_drop, "nut drop", "nut_drop", "length", "drop of the nut under the weight", 0, 0.01, 4, true},
    {readable::tailpiece_rise, "tailpiece angle", "tailpiece_rise", "angle", "angle of the tailpiece", 0, 0, 2},
    {readable::octave_setback, "setback by ear", "strings[].octave_setback", "length", "saddle further back by ear for {s}",
     0, 0, 2},
};
/// Whether a path has this pattern, with its brackets filled.
[[nodiscard]] constexpr bool fits(std::string_view pattern, std::string_view path) {
    return !path.empty() && covered(pattern, path) == path.size() && path.find("[]") == std::string_view::npos;
}

} // namespace kernel

/// What a path reads; nothing where it names nothing that can be read.
[[nodiscard]] constexpr std::optional<readable_thing> find_readable(std::string_view path) {
    for (const auto& row : kernel::readables) {
        if (kernel::fits(row.path, path)) {
            return readable_thing{row.what,  row.noted,       row.path,   row.kind,           row.words,
                                  row.model, row.model_share, row.effort, row.without_strings};
        }
    }
    return std::nullopt;
}
/// All paths that can be read, for messages about one that cannot: "relief.gap, strings[].heights[], ...".
[[nodiscard]] inline std::string readable_paths() {
    std::string all;
    for (const auto& row : kernel::readables) { messages::append(all, {all.empty() ? "" : ", ", row.path}); }
    return all;
}
/// What is read, in words: "height over fret 12 of string 6 (E2)".
/// @param names what the strings are called; without them a string is told by its index
[[nodiscard]] inline std::string readable_words(std::string_view path, const string_names& names = {}) {
    const auto thing = find_readable(path);
    if (!thing) { return std::string(path); }
    std::string words;
    for (std::size_t i = 0; i < thing->words.size(); ++i) {
        if (thing->words[i] != '{') {
            words += thing->words[i];
            continue;
        }
        words += thing->words[i + 1] == 's' ? names.name(kernel::item_of(path, 0).value_or(0))
                                            : messages::joined({kernel::item_of(path, 1).value_or(0) + 1});
        i += 2;
    }
    return words;
}

} // namespace tautline
