#pragma once
/// @file
/// What can be read of an instrument beside what it is described by: one table of paths, what kind of thing each is, what
/// it is called, and how far the model itself may be from it.

#include <optional>
#include <string>
#include <string_view>

#include "../core/invalid_input.hpp"
#include "../core/path_pattern.hpp"
#include "../strings/string_names.hpp"

namespace tautline {

/// What is read.
enum class readable {
    relief_gap,      ///< of the crests, where it is largest
    height,          ///< of an open string over a fret
    gap,             ///< from a string down to something that lies under it
    top_drop,        ///< how far the saddle has come down from slack to pitch
    top_sink,        ///< how far the soundboard has, beside a bridge that turns
    line_at_saddle,  ///< straightedge on the frets, over the body at the saddle
    note,            ///< pressed at a fret, by a tuner: how many cents off
    break_at_saddle, ///< angle of a string over it
    break_at_nut,    ///< angle of a string over it
    nut_drop,        ///< of the nut under a hung weight
    tailpiece_rise,  ///< angle of a hinged tailpiece
    octave_setback,  ///< how much further back the ear wants the saddle
};

/// What is to be known of a thing that can be read.
struct readable_thing {
    readable what{};              ///< which it is
    std::string_view noted{};     ///< what it is noted as at the bench: "relief", "line at saddle"
    std::string_view path{};      ///< its pattern, with empty brackets
    std::string_view kind{};      ///< "length", "angle", "interval" (in cents)
    std::string_view words{};     ///< "{s}" is the string, "{2}" the fret
    double model = 0;             ///< standard uncertainty of the model itself, in SI or cents
    double model_share = 0;       ///< the same as a share of what is read
    int effort = 0;               ///< of two that say as much the one with less is asked for
    bool without_strings = false; ///< can be read when the strings are off
};

namespace kernel {

/// A `readable_thing` as it is written down here. Doubts of the model are common practice, no source, but for the nut's
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
/// Whether a path is one of a pattern, its places in lists told.
[[nodiscard]] constexpr bool fits(std::string_view pattern, std::string_view path) {
    return !path.empty() && covered(pattern, path) == path.size() && path.find("[]") == std::string_view::npos;
}

} // namespace kernel

/// What a path reads; nothing where nobody can read it.
[[nodiscard]] constexpr std::optional<readable_thing> find_readable(std::string_view path) {
    for (const auto& row : kernel::readables) {
        if (kernel::fits(row.path, path)) {
            return readable_thing{row.what,  row.noted,       row.path,   row.kind,           row.words,
                                  row.model, row.model_share, row.effort, row.without_strings};
        }
    }
    return std::nullopt;
}
/// All paths that can be read, for whoever named one that cannot: "relief.gap, strings[].heights[], ...".
[[nodiscard]] inline std::string readable_paths() {
    std::string all;
    for (const auto& row : kernel::readables) { messages::append(all, {all.empty() ? "" : ", ", row.path}); }
    return all;
}
/// What is read, in words: "height over fret 12 of string 6 (E2)".
/// @param names what the strings are called; without them a string is told by its place in the list
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
