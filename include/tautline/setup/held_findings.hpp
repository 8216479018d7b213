#pragma once
/// @file
/// Findings about what bends strings besides nut and saddle: guides, slot edges, pressing bars, a pressed tailpiece, the
/// nut behind a zero fret.

#include "setup.hpp"

namespace tautline::kernel {

/// In radians: a string with a smaller break counts as passing without touching.
inline constexpr double touching_break = 1e-6;

/// Tells of a nut behind a zero fret that would hold the string off its crown. How far behind it lies is not told; there
/// the string runs lower still, so a slot lower than the crown by some hundredths may do so, too.
template <class R>
void find_on_nut(const basic_instrument<R>& built, std::size_t i, basic_setup<R>& out) {
    if (!built.board.scale.zero_fret || own_nut_of(built, i)) { return; }
    const auto slot = length<double>::from_value(static_cast<double>(value_of(built.nut.slot_height(i).value()))),
               crown =
                   length<double>::from_value(static_cast<double>(value_of(kernel::crown_left(built.frets, 0).value())));
    if (slot < crown) { return; }
    out.findings.push_back(
        {.kind = finding_kind::lies_on_nut, .severity = severity::stop, .string_index = i, .number = slot, .limit = crown});
}

template <class R>
void find_held(const basic_instrument<R>& built, basic_setup<R>& out) {
    const auto number = [](const auto& q) { return static_cast<double>(value_of(q.value())); };
    const auto tell = [&](finding_kind kind, severity how, std::optional<std::size_t> string, std::string_view part) {
        out.findings.push_back({.kind = kind, .severity = how, .string_index = string, .part = part});
    };
    for (std::size_t i = 0; i < out.strings.size(); ++i) {
        const auto& s = out.strings[i];
        find_on_nut(built, i, out);
        const bool bent = s.at_guide && number(s.at_guide->break_angle) > touching_break;
        if (s.at_guide && built.posts[i].guide && !bent) {
            tell(finding_kind::passes_untouched, severity::note, i, "guide");
        }
        if (s.at_guide && !built.posts[i].guide && bent) {
            tell(finding_kind::lies_on_slot_edge, severity::warning, i, {});
        }
        if (!built.pressing_bar) { continue; }
        const auto& b = out.bridge_strings[i];
        const auto at_bar = kernel::break_angle(kernel::direction_between(b.anchor, b.saddle),
                                                kernel::direction_between(b.anchor, out.string_ends[i]));
        if (number(at_bar) > touching_break) { continue; }
        tell(finding_kind::passes_untouched, severity::note, i, "pressing bar");
    }
    if (out.tailpiece_press && number(*out.tailpiece_press) < 0) {
        tell(finding_kind::tailpiece_not_pressed, severity::warning, std::nullopt, {});
    }
}

} // namespace tautline::kernel
