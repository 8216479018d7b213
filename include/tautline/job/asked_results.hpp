#pragma once
/// @file
/// The results by which a job is judged first: what is wanted, and what the strings do to neck and top.

#include <string>
#include <vector>

#include "../core/leaves.hpp"
#include "../core/when_used.hpp"
#include "height_wishes.hpp"
#include "wishes.hpp"

namespace tautline {

/// A result of a setup with which a sheet begins.
struct asked_result {
    std::string path{};    ///< path of the result
    std::string name{};    ///< what it is, in a few words
    any_quantity wanted{}; ///< the wish; absent where there is none
};

/// The results with which a sheet begins, for an instrument of at least one string.
/// @param w what is wanted
/// @param s the setup that the results are of
template <class = when_used>
[[nodiscard]] std::vector<asked_result> asked_results(const wishes& w, const setup& s) {
    const auto asked = [](const auto& wish) { return wish ? any_of(*wish) : any_quantity(); };
    std::vector<asked_result> list{{"relief.gap", "relief", asked(w.relief)}};
    require_that(!s.strings.empty(), "strings", "must hold at least one string");
    const std::size_t last = s.strings.size() - 1;
    const auto at = [&](std::size_t string, int fret, const any_quantity& wanted) {
        const auto n = static_cast<std::size_t>(fret);
        if (n > s.fret_x.size()) { return; }
        list.push_back({messages::joined({messages::path_of("strings", string), ".", messages::path_of("heights", n - 1)}),
                        messages::joined({"over fret ", fret, ", ", s.names.name(string)}), wanted});
    };
    const int action = action_fret(w.action_fret, s);
    // A single string takes the treble wish where only that is given.
    const auto first_of = [&](const auto& bass, const auto& treble) { return asked(bass || last > 0 ? bass : treble); };
    at(s.first_string_at(1), 1, first_of(w.first_fret_bass, w.first_fret_treble));
    if (last > 0) { at(last, 1, asked(w.first_fret_treble)); }
    if (action > 1) {
        at(s.first_string_at(static_cast<std::size_t>(action)), action, first_of(w.action_bass, w.action_treble));
        if (last > 0) { at(last, action, asked(w.action_treble)); }
    }
    list.push_back({"total_tension", "pull of all strings", {}});
    list.push_back({"down_force", "down-force on the saddle", asked(w.down_force)});
    list.push_back({"nut_rise", "nut rises under load by", {}});
    if (s.top) { list.push_back({"top.sink", "top sinks under the bridge by", {}}); }
    if (s.pinned) {
        list.push_back({"top_force", "strings press the top with", {}});
        list.push_back({"pinned.turning", "turning moment on the bridge", {}});
    }
    return list;
}
TAUTLINE_HELD(std::vector<asked_result> asked_results<>(const wishes&, const setup&))

} // namespace tautline
