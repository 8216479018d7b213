#pragma once
/// @file
/// An instrument as it is read: strung as it is, and in every other state in which it is read.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "../instrument/strung_instrument.hpp"
#include "../neck/rod_setting.hpp"
#include "read_season.hpp"

namespace tautline {

/// The state of an instrument with all strings at pitch. A reading is taken in it unless another state is named.
inline constexpr std::string_view pitch_state = "at pitch";
/// The state with all strings off and the rod pulling as it is set. With the rod loose as well it is another state.
inline constexpr std::string_view slack_state = "slack";

/// A state in which readings are taken: its name, and how it differs from the instrument at pitch.
template <class R = double>
struct basic_reading_state {
    using real = R;
    std::string name{};                      ///< such as "a quarter turn" or "2 kg at the nut"
    bool slack = false;                      ///< whether the strings are off
    R rod_turns = number<R>(0);              ///< of the rod's nut from where it is; positive tightens; needs `rod_screw`
    bool rod_loose = false;                  ///< whether the rod's nut is loosened until the rod bears nothing
    std::optional<field<force<R>>> weight{}; ///< hung on the slack neck, where it pulls the neck back
    int at_fret = 0;                         ///< fret where the weight hangs; 0 is the nut
    /// Other strings, tuned like those of the instrument; empty: the instrument's own.
    std::vector<basic_tuned_string<R>> strings{};
    std::optional<int> capo{}; ///< fret at which all strings are held down; heights are then those over the other frets
    /// Which of the instruments after some work is read, counted from 0; absent: the instrument as found.
    std::optional<int> after_work{};
    /// The air that the instrument was read in, after weeks in it; absent: the air that all else was measured in.
    std::optional<basic_noted_air<R>> air{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("name", any_text, self.name...);
        visit("slack", self.slack...);
        visit("rod_turns", between(-20, 20).fair_default("the rod as it is"), self.rod_turns...);
        visit("rod_loose", self.rod_loose...);
        visit("weight", more_than_up_to(0 * units::N, 1000 * units::N), self.weight...);
        visit("at_fret", between(0, 240).fair_default("at the nut"), self.at_fret...);
        visit("strings", self.strings...);
        visit("capo", between(1, 240), self.capo...);
        visit("after_work", between(0, 100), self.after_work...);
        visit("air", self.air...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (weight && !slack) {
            report("slack", "must be true where a weight is hung: strings at pitch would hold the neck");
        }
        if (slack && !strings.empty()) { report("strings", "must be left out where the strings are off"); }
        if (slack && capo) { report("capo", "must be left out where the strings are off"); }
        if (rod_loose && !in_all_lanes(rod_turns == number<R>(0))) {
            report("rod_turns", "must be 0 where the rod is loose: turns are counted from the rod as it is set");
        }
        if (name == pitch_state || name == slack_state) {
            report("name", "must be another one: \"at pitch\" and \"slack\" are there without being described");
        }
    }
};
using reading_state = basic_reading_state<double>;

/// What readings are taken with, where it may err alike in all of them: a set of feelers, a rule with a worn end.
template <class R = double>
struct basic_reading_gauge {
    using real = R;
    std::string name{};                  ///< such as "feelers"
    field<length<R>> zero = length<R>(); ///< by how much it reads too much, in every reading taken with it

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("name", any_text, self.name...);
        visit("zero", between(-10 * units::mm, 10 * units::mm).fair_default("it reads true"), self.zero...);
    }
};
using reading_gauge = basic_reading_gauge<double>;

/// An instrument with its strings, and all that its readings need. Paths of doubts start here: "saddle.board_line",
/// "rod_screw.lead", "states[0].rod_turns", "gauges[0].zero".
template <class R = double>
struct basic_read_instrument {
    using real = R;
    basic_strung_instrument<R> at_pitch;           ///< the instrument with its strings at pitch
    std::optional<basic_rod_screw<R>> rod_screw{}; ///< needed for states with the rod turned
    std::vector<basic_reading_state<R>> states{};  ///< those besides "at pitch" and "slack"
    /// The same instrument after work on it, for states that are read then. A doubt of a number that the work kept moves
    /// it in each of them. What was done brings doubts of its own.
    std::vector<basic_strung_instrument<R>> after_work{};
    std::vector<basic_reading_gauge<R>> gauges{}; ///< tools that err alike in all their readings
    std::optional<basic_read_season<R>> season{}; ///< needed for states in another air

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("", self.at_pitch...);
        visit("rod_screw", self.rod_screw...);
        visit("states", self.states...);
        visit("after_work", self.after_work...);
        visit("gauges", self.gauges...);
        visit("season", self.season...);
    }
    template <class Report>
    void rules(Report&& report) const {
        for (std::size_t i = 0; i < states.size(); ++i) {
            const auto& s = states[i];
            if (!in_all_lanes(s.rod_turns == number<R>(0)) && !at_pitch.instrument.neck.rod) {
                report(messages::path_of("states", i, "rod_turns"), "must be 0: the neck has no rod to turn");
            } else if (!in_all_lanes(s.rod_turns == number<R>(0)) && !rod_screw) {
                report("rod_screw", "must be given where a state has the rod turned: its diameter, modulus and lead");
            }
            if (!s.strings.empty() && s.strings.size() != at_pitch.stringing.strings.size()) {
                report(messages::path_of("states", i, "strings"),
                       messages::joined({"must be ", at_pitch.stringing.strings.size(),
                                         ", as the instrument has, but there are ", s.strings.size()}));
            }
            if (s.capo && *s.capo > at_pitch.instrument.board.scale.frets) {
                report(messages::path_of("states", i, "capo"),
                       messages::joined({"must be one of the board's ", at_pitch.instrument.board.scale.frets, " frets"}));
            }
            if (s.weight && s.at_fret >= at_pitch.instrument.neck.joint_fret) {
                report(messages::path_of("states", i, "at_fret"), "must be before the joint: the body bears the rest");
            }
            if (s.air && !season) {
                report("season",
                       "must be given where a state has an air of its own: the air of all else, and what is known "
                       "of 1 % of moisture");
            } else if (s.air && is_valid(*s.air) && is_valid(season->measured_in)) {
                const auto moisture = [](const basic_noted_air<R>& a) {
                    return kernel::equilibrium_moisture(a.climate()).in_unit();
                };
                if (const char* wrong = kernel::wrong_moisture<R>(moisture(*s.air))) {
                    report(messages::path_of("states", i, "air.humidity"), wrong);
                } else if (!in_all_lanes(abs(season->gained_in(*s.air)) <= number<R>(10))) {
                    report(messages::path_of("states", i, "air.humidity"),
                           "must leave the wood within 10 % of the moisture that all else was measured with");
                }
            }
            if (s.after_work && static_cast<std::size_t>(*s.after_work) >= after_work.size()) {
                report(messages::path_of("states", i, "after_work"), "must be of an instrument that is there");
            }
            for (std::size_t k = 0; k < i; ++k) {
                if (states[k].name == s.name) {
                    report(messages::path_of("states", i, "name"), "must be another than that of a state before it");
                }
            }
        }
        for (std::size_t i = 0; i < gauges.size(); ++i) {
            for (std::size_t k = 0; k < i; ++k) {
                if (gauges[k].name == gauges[i].name) {
                    report(messages::path_of("gauges", i, "name"), "must be another than that of a gauge before it");
                }
            }
        }
    }
};
using read_instrument = basic_read_instrument<double>;

} // namespace tautline
