#pragma once
/// @file
/// What each result of a setup is in words, how it is made and from which source. Explanations, comparisons and printed
/// lists share this one table.
///
/// The smallest changes that are noticed are common practice, no source; they only decide what is told first.

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "numbered_paths.hpp"

namespace tautline {

/// What a result means. A pattern is a path of a `setup` with empty brackets for any place in a list. A pattern that ends
/// within a path covers everything below it.
struct result_meaning {
    std::string_view pattern{}; ///< pattern of the paths that it covers
    /// "{s}" stands for the string of the first list. "{1}" and "{2}" are places in the first and second list, counted
    /// from 1. "{0}" is the place in the second list, counted from 0: the fret it is pressed at, or open.
    std::string_view words{};
    std::string_view formula{}; ///< how it is computed, in the symbols of its source
    std::string_view source{};  ///< source of the formula
    double step = 0;            ///< smallest change noticed, in SI (cents for intervals); 0 with share 0: never told
    double share = 0;           ///< smallest change that is noticed, as a share of what it was
    std::string_view more{};    ///< what more of it means
    std::string_view less{};    ///< what less of it means
};

namespace kernel {

inline constexpr const char* edge_statics = "statics of a string over an edge: two equal pulls along its two sides";
inline constexpr const char* line_geometry = "plane geometry: straight string lines over crests of the bowed neck";

inline constexpr const char* reset_geometry = "plane geometry: the neck turned as one body about the joint's edge";
inline constexpr const char* reset_turn = "root of the action over the turn, the saddle's mean height held";

/// A `result_meaning` as the table holds it. Plain pointers: the length of every view would be computed whenever this
/// header is compiled.
struct meaning_row {
    const char *pattern, *words, *formula, *source;
    double step = 0, share = 0;
    const char *more = "", *less = "";
};
/// Results of a setup; those below "plan." and "work." are of a plan and of bench work.
inline constexpr meaning_row meanings[] = {
    {"strings[].gauge", "gauge of {s}", "core diameter + 2 x thickness of each layer", "geometry"},
    {"strings[].pitch", "pitch of {s}", "f = a4 x 2^(steps from A4 / 12)", "ISO 16:1975; equal temperament"},
    {"strings[].mass_per_length", "mass per length of {s}",
     "mu = sum of rho A of core and wraps, stretched to pitch: / (1 + T/EA)", "geometry; Hooke's law", 0, 0.02,
     "a heavier string", "a lighter string"},
    {"strings[].speaking_length", "speaking length of {s}", "nut edge to saddle in space", "geometry", 0.5e-3},
    {"strings[].tension", "tension of {s}", "T (1 + T/EA) = mu_slack (2 L f)^2",
     "Mersenne's law; mass thinned by stretch (Hooke)", 0, 0.02, "stiffer to press, louder, more load",
     "easier to press, nearer to rattling"},
    {"strings[].core_stress", "stress in the core of {s}", "T / core area", "definition", 0, 0.02},
    {"strings[].share_of_strength", "share of the core's strength in {s}", "core stress / least tensile strength",
     "least strength: curve of a spring-design handbook, checked against ASTM A228", 0.02, 0, "nearer to breaking",
     "further from breaking"},
    {"strings[].y_at_nut", "place across the nut of {s}", "spread divided by equal centres or equal gaps, courses apart",
     "geometry", 0.2e-3},
    {"strings[].y_at_saddle", "place across the saddle of {s}",
     "spread divided by equal centres or equal gaps, courses apart", "geometry", 0.2e-3},
    {"strings[].line", "line under load of {s}", "nut slot on the risen nut; saddle less what the top gives",
     line_geometry},
    {"strings[].crest_z[]", "crest of fret {2} under {s}", "bow + set + surface across + crown - wear",
     "beam theory, geometry"},
    {"strings[].heights[]", "height over fret {2} of {s}", "string line at the fret - crest", line_geometry, 0.05e-3, 0,
     "higher: harder to press, sharper when pressed", "lower: nearer to buzzing"},
    {"strings[].clearances[].gap", "least clearance {0}, {s}",
     "least of (line from the pressed crest to the saddle) - crest, over the frets ahead", line_geometry, 0.05e-3, 0,
     "freer of buzz", "nearer to buzzing"},
    {"strings[].clearances[]", "tightest place {0}, {s}", "the fret with the least clearance", line_geometry},
    {"strings[].at_nut.break_angle", "break angle at the nut of {s}", "angle between its two sides there",
     "vector geometry", 0.0175, 0, "more firmly seated, more friction", "less firmly seated"},
    {"strings[].at_nut.down_break", "part of the break at the nut that seats {s}", "slopes of its two sides in height",
     "vector geometry"},
    {"strings[].at_nut.side_angle", "sideways break at the nut of {s}", "directions of its two sides seen from above",
     "vector geometry", 0.0175},
    {"strings[].at_nut.on_support", "force on the nut of {s}", "T (sum of unit vectors along both sides)", edge_statics},
    {"strings[].at_nut.on_anchor", "pull on the post of {s}", "T along its afterlength", edge_statics},
    {"strings[].at_guide.break_angle", "break angle at the guide or the slot's edge on the head of {s}",
     "angle between its two sides there", "vector geometry", 0.0175},
    {"strings[].at_guide.on_support", "force on the guide or the slot's edge on the head of {s}",
     "T (sum of unit vectors along both sides)", edge_statics},
    {"strings[].at_guide", "what the guide or the slot's edge on the head does to {s}",
     "directions of its two sides; T along each", edge_statics},
    {"strings[].at_saddle.break_angle", "break angle over the saddle of {s}", "angle between its two sides there",
     "vector geometry", 0.0175, 0, "more firmly on the saddle", "less firmly on the saddle"},
    {"strings[].at_saddle.down_break", "part of the break at the saddle that presses down {s}",
     "slopes of its two sides in height", "vector geometry"},
    {"strings[].at_saddle.side_angle", "sideways break at the saddle of {s}", "directions of its two sides seen from above",
     "vector geometry", 0.0175},
    {"strings[].at_saddle.on_support", "force on the saddle of {s}", "T (sum of unit vectors along both sides)",
     edge_statics},
    {"strings[].at_saddle.on_anchor", "pull on the anchor of {s}", "T along its afterlength", edge_statics},
    {"strings[].nut_dead_band", "how far the pitch may hang behind the tuner for friction at the nut, {s}",
     "T e^(-mu a) to T e^(mu a), as cents of pitch", "capstan equation (Euler; Eytelwein)", 20},
    {"strings[].saddle_dead_band", "how far the pitch may hang behind the tuner for friction at the saddle, {s}",
     "T e^(-mu a) to T e^(mu a), as cents of pitch", "capstan equation (Euler; Eytelwein)", 20},
    {"strings[].notes[].error", "intonation at fret {2} of {s}",
     "cents between the pressed note (length, stretch, stiffness) and the equal step the fret is for",
     "stretch as Anderson and Beausoleil; stiff string as Fletcher (1964)", 2, 0, "sharper", "flatter"},
    {"strings[].notes[].tension", "tension of {s} pressed at fret {2}",
     "open tension T + (EA + T) x stretch of pressing / speaking length", "Hooke"},
    {"strings[].notes[]", "note at fret {2} of {s}", "f = sqrt(T/mu) / 2L with the stretch of pressing and stiff ends",
     "stretch as Anderson and Beausoleil; stiff string as Fletcher (1964)"},
    {"strings[].octave_setback", "saddle further back for a true octave of {s}",
     "root of the octave fret's error over the saddle's place", "Newton's method on the note's model", 0.3e-3},
    {"strings[].plucks[]", "hardest clean pluck {0}, {s}",
     "release shape mirrored about the string's line touches the nearest crest", "d'Alembert's travelling waves", 0, 0.1,
     "bears a harder pluck", "rattles at a softer pluck"},
    {"fret_x[]", "place of fret {1} from the nut", "S (1 - 2^(-n/N)), or as measured or by the old divisor",
     "equal temperament"},
    {"strings[].crest_x[]", "place of fret {2} under {s}", "string and slanted fret as two lines seen from above",
     "plane geometry"},
    {"total_tension", "total pull of all strings", "sum of tensions", "sum", 0, 0.02, "more load on neck and body",
     "less load on neck and body"},
    {"nut_rise", "rise of the nut from slack, any rod loose, to pitch", "bow of the neck at the nut",
     "Euler-Bernoulli beam with second order", 0.05e-3, 0, "the neck bows more", "the neck bows less"},
    {"relief.gap", "relief", "largest gap under a straightedge on the first fret and the joint's",
     "Euler-Bernoulli beam with second order", 0.03e-3, 0, "more hollow", "less hollow"},
    {"relief.x", "place of the greatest relief", "crest with the largest gap", "geometry"},
    {"bass_relief.gap", "relief along the outermost bass string",
     "as relief, over that string's own crests: of fanned frets, of a board or frets told by both edges",
     "Euler-Bernoulli beam with second order", 0.03e-3, 0, "more hollow", "less hollow"},
    {"bass_relief", "relief along the outermost bass string",
     "as relief, over that string's own crests: of fanned frets, of a board or frets told by both edges", "geometry"},
    {"treble_relief.gap", "relief along the outermost treble string",
     "as relief, over that string's own crests: of fanned frets, of a board or frets told by both edges",
     "Euler-Bernoulli beam with second order", 0.03e-3, 0, "more hollow", "less hollow"},
    {"treble_relief", "relief along the outermost treble string",
     "as relief, over that string's own crests: of fanned frets, of a board or frets told by both edges", "geometry"},
    {"board_relief", "relief of the board itself", "as relief, all crowns alike", "Euler-Bernoulli beam with second order"},
    {"down_force", "down-force of all strings on the saddle", "sum over the strings", edge_statics, 0, 0.05,
     "more load on the bridge", "less load on the bridge"},
    {"push_along", "push of all strings along on the saddle", "sum over the strings", edge_statics},
    {"top_force", "press of all strings on the soundboard",
     "down-force on the saddle; where the bridge holds the strings' ends, sum of T x fall of the speaking side toward the "
     "soundboard's own plane",
     edge_statics, 0, 0.05, "the top is pressed more, or lifted less", "the top is pressed less, or lifted more"},
    {"tailpiece_rise", "angle of the tailpiece above the soundboard's plane",
     "where the strings' moments about its hinge balance", "statics", 0.0175},
    {"tailpiece_press", "what presses the tailpiece down at its strings' end",
     "moment of the strings about its hinge / reach", "statics", 0, 0.05, "pressed harder", "pressed less"},
    {"bar_force", "force of all strings on the pressing bar", "sum over the strings of T x both unit vectors", edge_statics,
     0, 0.05},
    {"anchor_pull", "pull of all strings on their anchors", "sum over the strings", edge_statics},
    {"standing.even.front_margin", "how far inside the feet's front edge the pull falls",
     "moment of all forces / down-force", "statics", 1e-3},
    {"standing.even.back_margin", "how far inside the feet's back edge the pull falls", "moment of all forces / down-force",
     "statics", 1e-3},
    {"standing.even.bass_load", "load on the bass foot", "moments across about the other foot", "statics", 0, 0.05},
    {"standing.even.treble_load", "load on the treble foot", "moments across about the other foot", "statics", 0, 0.05},
    {"standing", "how the floating bridge stands", "forces of the strings with even tension, or friction at either bound",
     "statics; capstan equation"},
    {"pinned.turning", "turning moment on the bridge", "sum of pulls x heights over the middle of the top", "statics", 0,
     0.05, "the top bellies more", "the top bellies less"},
    {"pinned", "load of a pinned bridge", "sum over the strings", "statics"},
    {"top", "give of the soundboard", "load / measured stiffness, settled with the strings", "Hooke's law; fixed point",
     0.05e-3},
    {"line_at_saddle", "height of the frets' line over the body at the saddle",
     "least-squares line of the crests carried on", "geometry", 0.3e-3},
    {"straight_saddle", "straight saddle that suits all octave frets", "least squares over the strings' wanted places",
     "least squares"},
    {"plan.slot_change[]", "change of the nut slot of {s}",
     "line from the saddle through the wanted height at fret 1, carried to the nut, less where the slot is", line_geometry},
    {"plan.saddle_height[]", "height over the body of the saddle slot of {s}",
     "the same line carried to the saddle, plus what the top gives; inner slots on the best arc", line_geometry},
    {"plan.saddle_change[]", "change of the saddle slot of {s}", "planned height - found height", line_geometry},
    {"plan.saddle_off_arc", "what the saddle's arc leaves a slot to be cut",
     "wanted height at the action's fret missed, carried to the saddle", line_geometry},
    {"plan.rod_pull_change", "change of the rod's pull", "root of the relief over the pull, less the pull as found",
     "Euler-Bernoulli beam with second order; Newton's method"},
    {"plan.rod_turns", "turns of the rod's nut", "pull x (L/EA of the rod + shortening of the neck) / lead", "Hooke's law"},
    {"plan.setback_change_bass", "saddle further back at the bass", "straight saddle through the octave frets' places",
     "least squares"},
    {"plan.setback_change_treble", "saddle further back at the treble", "straight saddle through the octave frets' places",
     "least squares"},
    {"plan.singles[].setback", "how far the own saddle of {s} lies beyond the scale length, along the centre line",
     "root of the octave fret's error over the saddle's place, within its travel", "Newton's method on the note's model"},
    {"plan.singles[].setback_change", "own saddle of {s} further back", "planned setback - found setback",
     "Newton's method on the note's model"},
    {"plan.singles[].height_left", "what the action of {s} misses its wish by", "action as planned - wanted action",
     line_geometry},
    {"plan.singles[].octave_left", "what the octave fret of {s} is off by, once its saddle is set",
     "cents between the pressed note and the octave",
     "stretch as Anderson and Beausoleil; stiff string as Fletcher (1964)"},
    {"plan.hinge_change", "change of the tailpiece's hanger", "root of the down-force over the hanger's height",
     "statics; Newton's method"},
    {"plan.adjusters", "the bridge's adjusters",
     "line through both outer saddle changes, at the wheels; over the thread's pitch", "plane geometry"},
    {"plan.pin_places[].behind_saddle", "hole of {s} behind the saddle",
     "drop / tan(wanted break - fall of the speaking side)", "plane geometry"},
    {"plan.pin_places[].distance", "hole of {s} behind the end of the scale length",
     "the same, less how far the saddle lies behind that end", "plane geometry"},
    {"plan.pin_holes", "holes behind the saddle", "drop / tan(wanted break - fall of the speaking side)", "plane geometry"},
    {"plan.reset.turn", "turn of the neck that is reset", reset_turn, reset_geometry},
    {"plan.reset.heel_cut", "off the heel at its cap", "depth x tan(turn) + what is left off the whole face",
     reset_geometry},
    {"plan.reset.edge_cut", "off the face of the joint at its edge", "as wished", reset_geometry},
    {"plan.reset.shim", "shim under the bridge end of the pocket", "length of the pocket x tan(turn)", reset_geometry},
    {"plan.reset.board_line", "board's line over the body at the saddle, once the neck is reset",
     "saddle and soundboard turned back about the joint's edge", reset_geometry},
    {"plan.reset.wedge", "wedge under the tongue at the board's end", "(board's end - joint) x sin(turn)", reset_geometry},
    {"plan.reset.octave_before", "octave fret off by lengths alone, as it is",
     "1200 log2(nut to saddle / crest to saddle) - 1200, between the outer strings", reset_geometry},
    {"plan.reset.octave_after", "octave fret off by lengths alone, reset, the saddle where it stood",
     "1200 log2(nut to saddle / crest to saddle) - 1200, between the outer strings", reset_geometry},
    {"plan.reset.break_before", "break over the saddle before anything is set, mean of the strings",
     "angle between both sides of each string", "vector geometry"},
    {"plan.reset.break_after", "break over the saddle as planned, mean of the strings",
     "angle between both sides of each string", "vector geometry"},
    {"plan.reset", "the neck reset", reset_turn, reset_geometry},
    {"plan.reset_instead", "the neck reset that would give the action, the saddle at its limit", reset_turn,
     reset_geometry},
    {"objects[].open", "least clearance under open strings", "string line - object's top at both its edges",
     "plane geometry"},
    {"objects[].pressed", "least clearance, pressed at the last fret",
     "line from the pressed crest - object's top at both its edges", "plane geometry"},
    {"objects[].along", "rise toward the bridge that lies along the strings",
     "plane of least squares through the strings' lines", "plane geometry"},
    {"objects[].across", "rise toward the treble that lies along the strings",
     "plane of least squares through the strings' lines", "plane geometry"},
    {"work.off_centre_at_nut", "sanded off the centre line at the nut",
     "least straight removal that cleans the wanted arc up everywhere", "plane geometry"},
    {"work.off_centre_at_end", "sanded off the centre line at the end",
     "least straight removal that cleans the wanted arc up everywhere", "plane geometry"},
    {"work.thickness_at_nut", "board left at the nut", "thickness as found - sanded off", "plane geometry"},
    {"work.thickness_at_end", "board left at its end", "thickness as found - sanded off", "plane geometry"},
    {"work.slot_needed", "depth of slot the wire needs", "tang + clearance", "common practice, no source"},
    {"work.off_bass_most", "most that is sanded off the bass edge",
     "what the edge stands over the new line there, and the hollow", "plane geometry"},
    {"work.off_treble_most", "most that is sanded off the treble edge",
     "what the edge stands over the new line there, and the hollow", "plane geometry"},
    {"work.bass_edge_left", "least height left at the board's bass edge", "height as found - sanded off", "plane geometry"},
    {"work.treble_edge_left", "least height left at the board's treble edge", "height as found - sanded off",
     "plane geometry"},
    {"work.slot_bass_left", "least depth left at the slots' bass ends", "depth as found - sanded off", "plane geometry"},
    {"work.slot_treble_left", "least depth left at the slots' treble ends", "depth as found - sanded off",
     "plane geometry"},
    {"work.slot_to_deepen", "most that a slot lacks", "depth needed - depth left after sanding", "plane geometry"},
    {"work.tang_interference", "tang wider than its slot", "tang thickness - slot width", "plane geometry"},
    {"work.off_centre_most", "most that is sanded off the centre line",
     "what the held neck stands over the new line there, and the hollow", "plane geometry"},
    {"work.thinnest", "board left at its thinnest place", "thickness as found - sanded off", "plane geometry"},
    {"work.level_slack", "metal off all crowns, neck slack", "least sum of cuts down to a line below every crest",
     "linear programme"},
    {"work.level_at_pitch", "metal off all crowns, neck held as found at pitch",
     "least sum of cuts down to a line below every crest", "linear programme"},
    {"work.level_will_be", "metal off all crowns, neck held as it will be",
     "least sum of cuts down to a line below every crest", "linear programme"},
    {"work.fret_cuts[]", "filed off fret {1}", "crest - the highest surface below every crest", "linear programme"},
    {"work.fret_cuts_bass[]", "filed off the bass end of fret {1}",
     "crest at the board's edge - the highest line below every crest there", "linear programme"},
    {"work.fret_cuts_treble[]", "filed off the treble end of fret {1}",
     "crest at the board's edge - the highest line below every crest there", "linear programme"},
};

} // namespace kernel

/// The meaning of a result by its path ("strings[2].heights[11]"). Where it has none of its own, that of the nearest path
/// above it. Nothing for a path of no result.
[[nodiscard]] constexpr std::optional<result_meaning> meaning_of(std::string_view path) {
    const kernel::meaning_row* best = nullptr;
    std::size_t most = 0;
    for (const kernel::meaning_row& m : kernel::meanings) {
        if (const std::size_t n = kernel::covered(m.pattern, path); n > most) {
            best = &m;
            most = n;
        }
    }
    if (!best) { return std::nullopt; }
    return result_meaning{best->pattern, best->words, best->formula, best->source,
                          best->step,    best->share, best->more,    best->less};
}

namespace kernel {

/// Names of strings that are asked for again and again: each is put together once.
class names_by_heart {
public:
    /// @param names must outlive it
    explicit names_by_heart(const string_names& names) {
        for (std::size_t i = 0; i < names.size(); ++i) { said_.push_back(names.name(i)); }
        beyond_ = &names;
    }
    /// As `string_names::name`.
    [[nodiscard]] std::string name(std::size_t i) const { return i < said_.size() ? said_[i] : beyond_->name(i); }

private:
    std::vector<std::string> said_{};
    const string_names* beyond_ = nullptr;
};

/// A result in words, of whose path the meaning is known.
template <class Names>
[[nodiscard]] std::string words_of(const std::optional<result_meaning>& m, std::string_view path, const Names& names) {
    if (!m) { return std::string(path); }
    const auto item = [path](std::size_t which, std::size_t from) {
        const auto i = kernel::item_of(path, which);
        return i ? messages::joined({*i + from}) : std::string("?");
    };
    std::string words;
    for (std::size_t i = 0; i < m->words.size(); ++i) {
        if (const std::size_t gap = std::min(m->words.find('{', i), m->words.size()); gap > i) {
            words.append(m->words, i, gap - i);
            i = gap - 1;
            continue;
        }
        const char which = m->words[i + 1];
        i += 2;
        // 0 is the open string.
        words += which == 's'                     ? names.name(kernel::item_of(path, 0).value_or(0))
                 : which == '1'                   ? item(0, 1)
                 : which == '2'                   ? item(1, 1)
                 : kernel::item_of(path, 1) == 0u ? std::string("open")
                                                  : messages::joined({"pressed at fret ", item(1, 0)});
    }
    if (const std::size_t named = kernel::covered(m->pattern, path); named < path.size()) {
        words += " (";
        for (const char c : path.substr(named + 1)) { words += c == '_' || c == '.' ? ' ' : c; }
        words += ')';
    }
    return words;
}

/// Meanings of many results: paths that differ in their numbers alone have one meaning, which is looked up once.
class known_meanings {
public:
    /// As `meaning_of`.
    [[nodiscard]] const std::optional<result_meaning>& of(std::string_view path) {
        bare_.clear();
        bool inside = false;
        for (const char c : path) {
            if (!inside || c == ']') { bare_ += c; }
            inside = c == '[' || (inside && c != ']');
        }
        const auto at = all_.find(bare_);
        return at != all_.end() ? at->second : all_.emplace(bare_, meaning_of(path)).first->second;
    }

private:
    std::string bare_{};
    std::unordered_map<std::string, std::optional<result_meaning>> all_{};
};

} // namespace kernel

/// A result in words, such as "height over fret 12 of string 4 (D3)". Where the words are those of a path above it, the
/// last names of the path are added: "pull of all strings on their anchors (z)".
/// @param names what the strings are called (`basic_setup::names`); without them a string is told by its index
[[nodiscard]] inline std::string words_for(std::string_view path, const string_names& names = {}) {
    return kernel::words_of(meaning_of(path), path, names);
}

} // namespace tautline
