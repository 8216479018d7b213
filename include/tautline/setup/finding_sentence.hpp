#pragma once
/// @file
/// What a finding says to a repairer, put together from its kind and its numbers when it is asked for.

#include <cmath>
#include <string>

#include "../core/to_text.hpp"
#include "../core/when_used.hpp"
#include "../instrument/string_order.hpp"
#include "../neck/wood_by_name.hpp"
#include "../strings/string_names.hpp"
#include "finding.hpp"
#include "twist_finding.hpp"

namespace tautline {

namespace kernel {

/// A finding's number as text of its own kind.
template <class U>
[[nodiscard]] std::string text_of(const any_quantity& q, measures units) {
    if (units != measures::metric) { return bench_text(q, {.units = units}); }
    return quantity_text<U>(static_cast<long double>(q.as<bu::quantity<U, double>>().value()));
}
/// What a finding about one string says of it, behind the string's name.
template <class = when_used>
[[nodiscard]] std::string said_of_string(const finding& f, measures units) {
    const auto told = [&](const any_quantity& q) { return bench_text(q, {.units = units}); };
    switch (f.kind) {
    case finding_kind::strength_unknown:
        return messages::joined(
            {"no strength is known for its core, which bears ", text_of<unit::stress>(f.number, units), "."});
    case finding_kind::core_near_strength:
    case finding_kind::core_over_strength:
        return messages::joined(
            {"its core bears ", std::lround(100 * f.number.si()), " % of the wire's least strength; ",
             f.kind == finding_kind::core_over_strength ? "it is expected to break." : "it may break when tuned or bent."});
    case finding_kind::lifts_off_nut:
        return messages::joined({"nothing presses it into its nut slot (down-force ", told(f.number), ")."});
    case finding_kind::lifts_off_saddle:
        return messages::joined({"nothing presses it onto the saddle (down-force ", told(f.number), ")."});
    case finding_kind::may_lift_off_saddle:
        return messages::joined(
            {"it presses the saddle with ", told(f.number), ", give or take ", told(f.limit), ": it may not stay down."});
    case finding_kind::open_string_touches:
    case finding_kind::pressed_string_touches: {
        const long pressed = std::lround(f.beside[0].si());
        const std::string how = pressed == 0 ? std::string("open") : messages::joined({"pressed at fret ", pressed});
        return messages::joined(
            {how, ", it touches fret ", f.fret.value_or(0), " (clearance ", text_of<unit::length>(f.number, units), ")."});
    }
    case finding_kind::out_of_reach:
        return messages::joined({"it stands ", text_of<unit::length>(f.number, units), " over fret ", f.fret.value_or(0),
                                 ", farther than any is set: measure saddle and board line again."});
    case finding_kind::string_off_board:
        return messages::joined({"it stands ", text_of<unit::length>(abs(f.number.as<length<>>()), units),
                                 " from the centre line at the nut, beyond the edge of the board."});
    case finding_kind::passes_untouched:
        return f.part == "guide" ? "it passes its guide on the head without touching it."
                                 : "it passes the pressing bar without touching it.";
    case finding_kind::saddle_beyond_travel:
        return messages::joined({"the ", f.part, " of its saddle is ", told(f.number), ", beyond the ", told(f.limit),
                                 " that it can be set to: measure both again."});
    case finding_kind::lies_on_nut:
        return messages::joined({"its nut slot stands ", told(f.number), " over the board, and the zero fret ",
                                 told(f.limit),
                                 ": it lies on the nut and not on the zero fret, for which all heights are told. Cut the ",
                                 "slot well below the crown."});
    case finding_kind::lies_on_slot_edge:
        return "it lies on the front edge of its slot in the head and cuts into the wood there.";
    default:
        return {};
    }
}
template <class = when_used>
[[nodiscard]] std::string said_of_loose_slots(const finding& f, measures units) {
    const auto told = [&](double metres) {
        return bench_text(any_quantity(length<>::from_value(std::abs(metres))), {.units = units});
    };
    const double bearing = f.beside[0].si(), relief = f.number.si();
    std::string sentence =
        messages::joined({bearing > 0 ? "The fret slots are not filled tightly" : "The fret slots are empty",
                          ": that costs ", std::lround(100 * f.beside[1].si()), " % of the neck's bending stiffness"});
    if (f.beside.size() > 2) {
        const double full = f.beside[2].si();
        messages::append(sentence, {" and is ", told(relief), relief < 0 ? " less relief" : " of the relief",
                                    "; with tight frets, the rod as it is, the board's relief would be ",
                                    full < 0 ? "-" : "", told(full)});
    }
    return sentence + ".";
}
template <class = when_used>
[[nodiscard]] std::string said_of_wood(const finding& f) {
    const auto named = woods::find_modulus(f.wood);
    if (!named) { return {}; }
    if (f.kind == finding_kind::modulus_asked_about) {
        return messages::joined(
            {"The ", f.part, "'s modulus: ", woods::question_about(named->may_be[0], f.number.as<stress<>>())});
    }
    if (named->is_one()) { return messages::joined({"The ", f.part, "'s wood, ", woods::caution_of(named->may_be[0])}); }
    return messages::joined({"The ", f.part, "'s wood, \"", f.wood, "\", may be ", named->names(),
                             ": their mean is taken, and its doubt holds them all. Say which it is."});
}
/// Says of a pair of strings how many others do the same: the finding's first number counts them all.
template <class = when_used>
[[nodiscard]] std::string said_of_other_pairs(const finding& f) {
    const long pairs = std::lround(f.beside[0].si());
    return pairs == 1   ? std::string()
           : pairs == 2 ? std::string(" So does one other pair.")
                        : messages::joined({" So do ", pairs - 1, " other pairs."});
}
template <class = when_used>
[[nodiscard]] std::string said_of_overlap(const finding& f, const string_names& names, measures units) {
    return messages::joined(
        {"Two neighbouring strings would lie ", text_of<unit::length>(f.number, units), " inside each other at the ",
         f.part, ", which cannot be: ", names.name(f.string_index.value_or(0)), "; and ",
         names.name(f.other_index.value_or(0)), ".", said_of_other_pairs(f),
         " Perhaps the free space between strings was measured: spread and course_gap count from centre ",
         "to centre, unless the rule is equal gaps."});
}
template <class = when_used>
[[nodiscard]] std::string said_of_crossing(const finding& f, const string_names& names) {
    if (f.part == "board") {
        return messages::joined({"Two strings cross over the board: ", names.name(f.string_index.value_or(0)), "; and ",
                                 names.name(f.other_index.value_or(0)), ".", said_of_other_pairs(f),
                                 " See the side on which a string begins at its own nut: across is negative to the bass."});
    }
    return messages::joined({"Two strings cross between the nut and their posts: ", names.name(f.string_index.value_or(0)),
                             "; and ", names.name(f.other_index.value_or(0)), ".", said_of_other_pairs(f),
                             " See that the posts stand in the strings' order, bass first, the bass side negative."});
}

} // namespace kernel

/// What a finding says, in a sentence or two. It names strings as the trade does, counted from the treble.
/// @param f a finding as `solve` or `fill_findings` made it
/// @param names what the strings are called: `names` of the setup that has the finding
/// @param units of its numbers
template <class = when_used>
[[nodiscard]] std::string sentence_of(const finding& f, const string_names& names, measures units = measures::metric) {
    const auto told = [&](const any_quantity& q) { return bench_text(q, {.units = units}); };
    switch (f.kind) {
    case finding_kind::back_bow:
        return messages::joined({"The neck stands in back-bow under load: relief ",
                                 kernel::text_of<unit::length>(f.number, units), " at fret ", f.fret.value_or(0), "."});
    case finding_kind::board_twisted:
        return sentence_of(board_twist{.x = f.beside[0].as<length<>>(),
                                       .apart = f.number.as<length<>>(),
                                       .hollow_bass = f.beside[1].as<length<>>(),
                                       .hollow_treble = f.beside[2].as<length<>>(),
                                       .moved_at_octave = f.beside[3].as<length<>>()},
                           units);
    case finding_kind::bridge_tips:
        return f.severity == severity::stop
                   ? "The strings' pull falls outside the bridge's feet: it does not stand."
                   : "Friction on the saddle can tip the bridge while tuning: see that it stands upright.";
    case finding_kind::bridge_slides: {
        const std::string needed = number_text(static_cast<long double>(std::ceil(f.number.si() * 100 - 1e-9) / 100));
        return messages::joined(
            {f.severity == severity::note
                 ? "Friction on the saddle can draw the bridge's feet along while tuning: they then need "
                   "a friction of "
                 : "The bridge's feet may slide on the soundboard: they need a friction of ",
             needed, " and may have ", number_text(static_cast<long double>(f.limit.si())),
             f.severity == severity::note ? ". See that it stands in its place once all are in tune." : "."});
    }
    case finding_kind::listed_treble_first:
        return messages::joined({"The strings ", must_stand_bass_first, "."});
    case finding_kind::re_entrant_tuning:
        return messages::joined({"A re-entrant tuning: ", names.course_name(f.string_index.value_or(0)),
                                 " sounds higher than its neighbour on the treble side, ",
                                 names.course_name(f.other_index.value_or(0)),
                                 ". If that is not meant, see to the order of the list and to the octaves."});
    case finding_kind::gauges_against_notes:
        return "The strings grow thicker from bass to treble along the whole set: see that notes and gauges stand in the "
               "same order, bass first.";
    case finding_kind::strings_cross:
        return kernel::said_of_crossing(f, names);
    case finding_kind::strings_overlap:
        return kernel::said_of_overlap(f, names, units);
    case finding_kind::tailpiece_not_pressed:
        return "The strings would pull the tailpiece lower than pressed_height says: nothing holds it up there.";
    case finding_kind::bass_scale_shorter:
        return messages::joined({"The bass scale, ", told(f.number), ", is shorter than the treble scale, ", told(f.limit),
                                 ": see that the two are not exchanged."});
    case finding_kind::saddle_barely_out:
        return messages::joined(
            {"The saddle stands ", told(f.number), " out of its slot: below about ", told(f.limit),
             " nothing is left to cut, and strings come near the bridge's wood. A neck reset would let ",
             "it stand higher."});
    case finding_kind::wood_by_name:
    case finding_kind::modulus_asked_about:
        return kernel::said_of_wood(f);
    case finding_kind::slots_loose:
        return kernel::said_of_loose_slots(f, units);
    default:
        return messages::joined({names.name_at_start(f.string_index.value_or(0)), ": ", kernel::said_of_string(f, units)});
    }
}
TAUTLINE_HELD(std::string sentence_of<>(const finding&, const string_names&, measures))

} // namespace tautline
