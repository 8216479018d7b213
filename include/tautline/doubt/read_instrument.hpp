#pragma once
/// @file
/// An instrument as it is read: strung as it is, and in every other state that somebody reads it in.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "../instrument/strung_instrument.hpp"
#include "../neck/rod_setting.hpp"
#include "read_season.hpp"

namespace tautline {

/// The state that an instrument is read in unless another is named: all strings at pitch.
inline constexpr std::string_view pitch_state = "at pitch";
/// All strings off, the rod as it is.
inline constexpr std::string_view slack_state = "slack";

/// A state that readings are taken in: a name, and what differs from the instrument at pitch.
template <class R = double>
struct basic_reading_state {
    using real = R;
    std::string name{};                      ///< "a quarter turn", "2 kg at the nut"
    bool slack = false;                      ///< the strings are off
    R rod_turns = number<R>(0);              ///< of the rod's nut from where it is: more tightens; needs the rod's screw
    std::optional<field<force<R>>> weight{}; ///< hung on the neck, pulling it back from the strings; only when slack
    int at_fret = 0;                         ///< where it hangs: 0 is the nut
    /// Other strings, tuned as those of the instrument are; none: the instrument's own.
    std::vector<basic_tuned_string<R>> strings{};
    std::optional<int> capo{}; ///< fret at which all strings are held down; heights are then those over the other frets
    /// Which of the instruments after some work is read, from 0; none: the instrument as found.
    std::optional<int> after_work{};
    /// The air that it was read in, having stood in it for weeks; none: that of the instrument as it is told.
    std::optional<basic_noted_air<R>> air{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("name", any_text, self.name...);
        visit("slack", self.slack...);
        visit("rod_turns", between(-20, 20).fair_default("the rod as it is"), self.rod_turns...);
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
        if (name == pitch_state || name == slack_state) {
            report("name", "must be another one: \"at pitch\" and \"slack\" are there without being described");
        }
    }
};
using reading_state = basic_reading_state<double>;

/// What readings are taken with where it may err alike in all of them: a set of feelers, a rule with a worn end.
template <class R = double>
struct basic_reading_gauge {
    using real = R;
    std::string name{};                  ///< "feelers"
    field<length<R>> zero = length<R>(); ///< what it reads too much, in every reading taken with it

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("name", any_text, self.name...);
        visit("zero", between(-10 * units::mm, 10 * units::mm).fair_default("it reads true"), self.zero...);
    }
};
using reading_gauge = basic_reading_gauge<double>;

/// An instrument with its strings and all that readings of it need: what paths of doubts speak of ("saddle.board_line",
/// "rod_screw.lead", "states[0].rod_turns", "gauges[0].zero").
template <class R = double>
struct basic_read_instrument {
    using real = R;
    basic_strung_instrument<R> at_pitch;           ///< at pitch
    std::optional<basic_rod_screw<R>> rod_screw{}; ///< for states with the rod turned
    std::vector<basic_reading_state<R>> states{};  ///< beside "at pitch" and "slack"
    /// The same instrument after work on it, for states that are read then: a doubt that is still there moves its number in
    /// each of them, and what was done adds its own.
    std::vector<basic_strung_instrument<R>> after_work{};
    std::vector<basic_reading_gauge<R>> gauges{}; ///< that err alike
    std::optional<basic_read_season<R>> season{}; ///< for states in another air

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
