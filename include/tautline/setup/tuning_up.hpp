#pragma once
/// @file
/// Tuning up on a soundboard that gives: how one string moves the others, and how many rounds of tuning it takes.

#include "../action/coupling.hpp"
#include "../core/when_used.hpp"
#include "../instrument/string_ends.hpp"
#include "../instrument/top_slope.hpp"
#include "../strings/tension.hpp"
#include "setup.hpp"

namespace tautline {

/// How tuning one string moves the others through the soundboard. The neck's bow, which moves them by less, is left out.
struct tuning_up {
    interval<double> most_moved{}; ///< the most that another string falls when one string is drawn up by a semitone
    int rounds = 0;                ///< rounds of tuning from a semitone low until all strings are within a cent
};

/// How tuning one string moves the others in a solved setup. Returns nothing where the soundboard's stiffness is not
/// known. On a bridge that holds the strings' ends only their speaking sides count, and the bridge turns.
template <class When = when_used>
[[nodiscard]] std::optional<tuning_up> tuning_up_of(const when_used_t<strung_instrument, When>& on,
                                                    const when_used_t<setup, When>& s) {
    using R = when_used_t<double, When>;
    const auto& built = on.instrument;
    if (!built.soundboard) { return std::nullopt; }
    const std::size_t n = s.strings.size();
    const basic_soundboard<R>& top = *built.soundboard;
    const bool holds = kernel::bridge_holding_ends(built).has_value();
    std::vector<R> gains;
    std::vector<length<R>> levers;
    std::vector<stiffness<R>> springs;
    std::vector<force<R>> tensions;
    std::vector<interval<R>> start;
    for (std::size_t i = 0; i < n; ++i) {
        const auto& one = s.strings[i];
        const auto held = held_load<R>(top, std::span(s.bridge_strings).subspan(i, 1), kernel::top_slope(built));
        gains.push_back((holds ? held.down : one.at_saddle.down()) / one.tension);
        levers.push_back(held.turning / one.tension);
        springs.push_back(axial_stiffness(on.stringing.strings[i].string) / one.speaking_length);
        tensions.push_back(one.tension);
        start.push_back(-100 * units::cents);
    }
    string_table<compliance<R>> table(n);
    add_shared_give<R>(table, gains, 1.0 / top.sink_stiffness);
    if (holds && top.turn_stiffness) { add_shared_turn<R>(table, levers, *top.turn_stiffness); }
    const auto coupling = tuning_coupling<R>(table, springs, tensions);
    R worst = 0;
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t k = 0; k < n; ++k) { worst = i == k ? worst : std::min(worst, coupling.at(i, k)); }
    }
    return tuning_up{-100 * worst * units::cents, tuning_passes(coupling, start).passes};
}
TAUTLINE_HELD(std::optional<tuning_up> tuning_up_of<>(const strung_instrument&, const setup&))

} // namespace tautline
