#pragma once
/// @file
/// What a repairer should be told about a setup. Findings are data: programs filter them and sheets print them.

#include <optional>
#include <string_view>
#include <vector>

#include "../core/any_quantity.hpp"
#include "../core/short_list.hpp"

namespace tautline {

/// What a finding is about.
enum class finding_kind {
    core_near_strength,     ///< core stress is close to the wire's least strength
    core_over_strength,     ///< core stress is at or over the wire's least strength
    strength_unknown,       ///< no strength is known for a core's material
    lifts_off_nut,          ///< nothing presses the string into its slot
    lifts_off_saddle,       ///< nothing presses the string onto the saddle
    may_lift_off_saddle,    ///< a job's doubt of the force that presses the string onto the saddle is more than the force
    open_string_touches,    ///< the open string lies on a fret
    pressed_string_touches, ///< pressed at a fret, the string lies on a later one
    out_of_reach,           ///< the open string stands farther off a fret than any is set
    back_bow,               ///< the neck stands back from the strings under load
    board_twisted,          ///< the slack board's edges are not alike
    string_off_board,       ///< a string runs beyond the edge of the board
    bridge_tips,            ///< the pull on a floating bridge falls outside its feet
    bridge_slides,          ///< a floating bridge's feet need more friction than they have at least
    listed_treble_first,    ///< all along the set each string sounds lower than the one before
    re_entrant_tuning,      ///< a string stands on the bass side of one that sounds lower
    gauges_against_notes,   ///< along the whole set, thicker strings sound higher
    strings_cross,          ///< two strings cross between nut and posts, or over the board
    strings_overlap,        ///< two neighbouring strings would lie inside each other
    passes_untouched,       ///< a string passes a guide or a pressing bar without touching it
    lies_on_nut,            ///< the nut behind a zero fret stands as high as its crown: the string lies on the nut
    lies_on_slot_edge,      ///< a string lies on the front edge of its slot in the head
    tailpiece_not_pressed,  ///< a tailpiece that should be pressed down would hang lower by itself
    wood_by_name,           ///< a wood's name alone says little of its modulus
    modulus_asked_about,    ///< a modulus is high for its wood: its test may have been one without shear
    saddle_barely_out,      ///< little of the saddle stands out of its slot on a bridge that holds the strings' ends
    saddle_beyond_travel,   ///< a single saddle is told to stand beyond what it can be set to
    bass_scale_shorter,     ///< a fan whose bass scale is shorter than its treble scale
    slots_loose,            ///< fret slots that bear less than all make the neck less stiff
};

/// How much a finding matters.
enum class severity {
    note,    ///< good to know
    warning, ///< will be heard or felt, or makes a part's life shorter
    stop,    ///< do not string the instrument up like this
};

/// What a severity is called in text: "note", "warning", "stop".
[[nodiscard]] constexpr std::string_view name_of(severity s) {
    return s == severity::stop ? "stop" : s == severity::warning ? "warning" : "note";
}

/// One finding: its kind and its numbers. `sentence_of(finding, names)` (setup/finding_sentence.hpp) tells it to a
/// repairer. A finding holds no text of its own, so that a solve which finds something allocates no more than another.
struct finding {
    finding_kind kind{};           ///< what it is about
    tautline::severity severity{}; ///< how much it matters
    /// Place of its string in the instrument's list, counted from 0, as in `strings[0]`; absent where it is not about one
    /// string.
    std::optional<std::size_t> string_index{};
    /// Place of a second string: the one that is crossed, the neighbour that sounds lower, or the neighbour on the treble
    /// side that it lies inside of; else absent.
    std::optional<std::size_t> other_index{};
    std::optional<int> fret{}; ///< counted from 1; absent where it is not about one fret
    any_quantity number{};     ///< what was found; its kind depends on the finding
    any_quantity limit{};      ///< what it was compared with
    /// What its sentence tells besides. `pressed_string_touches`, `open_string_touches`: the fret at which the string is
    /// pressed, 0 for open. `strings_cross`, `strings_overlap`: how many pairs do. `board_twisted`: place along the board,
    /// hollow of the bass edge, hollow of the treble edge, how far heights move at fret 12. `slots_loose`: how much the
    /// slots bear, share of stiffness that is missing, relief with slots that bear all, the last only where there is a
    /// relief.
    short_list<any_quantity, 4> beside{};
    /// The part of the instrument, where several could be meant: "board", "back"; "guide", "pressing bar"; "height",
    /// "setback"; "board"; "nut", "saddle". It must outlive the finding, as a literal does.
    std::string_view part{};
    std::string_view wood{}; ///< a wood's name as the table of woods has it; empty where it is not about a wood
};

/// Whether any finding is a stop: the setup must not be strung up as it is.
[[nodiscard]] inline bool any_stop(const std::vector<finding>& findings) {
    for (const finding& f : findings) {
        if (f.severity == severity::stop) { return true; }
    }
    return false;
}

} // namespace tautline
