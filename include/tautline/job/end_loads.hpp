#pragma once
/// @file
/// What all strings together do to the things that they end on, in sentences.

#include "../core/quantity_text.hpp"
#include "../core/to_text.hpp"
#include "../core/when_used.hpp"
#include "../supports/top.hpp"
#include "job_state.hpp"

namespace tautline {

/// Forces of all strings at saddle, tailpiece, pressing bar, joint and anchors in a state of a job, each in a sentence;
/// also where a straightedge passes the saddle.
template <class = when_used>
[[nodiscard]] std::vector<std::string> end_loads_in_words(const job_state& j, measures units = measures::metric) {
    const setup& s = j.is;
    const auto told = [&](const shown_kind& as, const any_quantity& q) { return bench_text(q, as, {.units = units}); };
    const auto across_and_along = [&](const force<>& across, const force<>& along) {
        return messages::joined({told(show::pull, across), " and push it toward the ",
                                 along < 0 * units::N ? "nut" : "tail", " with ", told(show::pull, tautline::abs(along)),
                                 "."});
    };
    std::vector<std::string> all{messages::joined(
        {"All strings together press the saddle down with ", across_and_along(s.down_force, s.push_along)})};
    if (s.tailpiece_rise) {
        all.push_back(messages::joined({"The tailpiece stands at ", fixed_text(angle<>(*s.tailpiece_rise), units::deg, 1),
                                        " deg above the soundboard's plane."}));
    }
    if (s.tailpiece_press) {
        all.push_back(messages::joined(
            {"It is pressed down at the strings with ", told(show::pull, force<>(*s.tailpiece_press)), "."}));
    }
    if (s.bar_force) {
        all.push_back(messages::joined(
            {"The strings lift the pressing bar with ", across_and_along(s.bar_force->z, s.bar_force->x)}));
    }
    if (s.line_at_saddle) {
        all.push_back(
            messages::joined({"A straightedge along the frets passes ", told(show::place, length<>(*s.line_at_saddle)),
                              " over the ", top_word(j.on.instrument), " at the saddle."}));
    }
    const auto body = section_load<double>(s.bridge_strings, s.beam.joint, length<>());
    all.emplace_back(
        "Each slot's floor falls toward the head between these two angles: the string then leaves at the front edge and "
        "bears on more than that edge.");
    all.push_back(messages::joined({"At the joint the strings press along with ", told(show::pull, body.compression),
                                    " and bend with ", told(show::turning, body.bending), " about the board's own line."}));
    all.push_back(messages::joined({"The anchors behind the saddle bear ", told(show::pull, s.anchor_pull.size()), "."}));
    return all;
}
TAUTLINE_HELD(std::vector<std::string> end_loads_in_words<>(const job_state&, measures))

} // namespace tautline
