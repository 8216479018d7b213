/// @file
/// The season: a year in the air of the measurements is no year; what the wood does it does by its own parts, the strings
/// none of it; and two visits that the solver makes give back the response that made them, on every kind of board.

#include <doctest/doctest.h>

#include <tautline/setup/season.hpp>

#include "alike.hpp"

namespace {

using namespace wholes;
using namespace tautline;
using namespace tautline::units;

double si(const auto& q) { return q.value(); }

season_response response_of(const recipe& r, bool solid) {
    return {.bow = (r.wish - 50) * 1e-6, .top = (solid ? 0 : (r.more - 50) * 0.002) * mm, .stiffness = -0.0003 * r.other};
}
climate air(double humidity) { return {.temperature = 20 * celsius, .humidity = humidity * percent_rh}; }
season year_of(const recipe& r) {
    return {.measured_in = air(45), .dry = air(25 + 0.1 * r.wish), .damp = air(60 + 0.1 * r.more), .response = {}};
}

} // namespace

TEST_SUITE("season") {
    TEST_CASE("the year as measured is the instrument as measured, and pitch keeps the strings' pulls") {
        must_hold("year", 60, [](const whole& w, complaints& wrong) {
            const strung_instrument on{w.built, w.stringing};
            auto year = year_of(w.from);
            year.response = response_of(w.from, w.built.body_bridge.has_value());
            setups_of_year all;
            try {
                all = through_the_year(on, year);
            } catch (const invalid_input&) { return false; } // it buckles in the damp
            alike(wrong, all.each[0], solve(on), {}, 0, 0);
            wrong.unless(all.gained[0] == 0 && all.gained[1] < 0 && 0 < all.gained[2], "moisture gained the other way");
            for (const auto& s : all.each) {
                // A saddle that rose is another length in the seventh digit.
                wrong.unless_near("total_tension", si(s.total_tension), si(all.each[0].total_tension),
                                  1e-3 * si(all.each[0].total_tension));
            }
            // Without a response the whole year is one.
            year.response = {.bow = 0, .top = 0 * mm, .stiffness = 0};
            const auto still = through_the_year(on, year);
            for (const auto& s : still.each) { alike(wrong, s, all.each[0], {}, 0, 0); }
            return true;
        });
    }
    TEST_CASE("a top that rises lifts what is on it against the neck, as a saddle that is as much higher") {
        must_hold("top rises", 60, [](const whole& w, complaints& wrong) {
            if (w.built.body_bridge) { return false; }
            const strung_instrument on{w.built, w.stringing};
            const double rise = 1e-5 * (w.from.more - 50); // metres
            const season_response r{.bow = 0, .top = length<>::from_value(rise / 4), .stiffness = 0};
            whole higher = w;
            raise_saddle(higher.built.saddle, length<>::from_value(rise), length<>::from_value(rise));
            setup risen, raised;
            try {
                risen = solve(moistened(on, r, 4.0));
                raised = solve(strung_instrument{higher.built, higher.stringing});
            } catch (const invalid_input&) { return false; }
            // Strings' ends behind the saddle rise with the top, and press a soft one a little otherwise.
            const double off = w.built.soundboard ? 2e-7 + 0.03 * std::abs(rise) : 1e-9;
            for (std::size_t i = 0; i < risen.strings.size(); ++i) {
                const auto &a = risen.strings[i], &b = raised.strings[i];
                const std::string name = "string " + std::to_string(i + 1);
                wrong.unless_near(name + ", line at the saddle", si(a.line.saddle_z), si(b.line.saddle_z), off);
                for (std::size_t n = 0; n < a.heights.size(); ++n) {
                    wrong.unless_near(name + ", height over fret " + std::to_string(n + 1), si(a.heights[n]),
                                      si(b.heights[n]), off);
                }
            }
            return true;
        });
    }
    TEST_CASE("two visits give back the response that made them") {
        must_hold(
            "visits", 60,
            [](const whole& w, complaints& wrong) {
                const strung_instrument on{w.built, w.stringing};
                const bool solid = w.built.body_bridge.has_value();
                const auto made = response_of(w.from, solid);
                const double gained = w.from.square % 2 == 0 ? 3.5 : -3.0;
                const auto visit = [](const setup& s) {
                    return visit_measures{.relief = s.relief->gap,
                                          .action = (s.strings.front().heights[11] + s.strings.back().heights[11]) * 0.5};
                };
                const auto now = solve(on);
                if (!now.relief || abs(now.relief->gap) > 4 * mm) { return false; }
                setup then;
                try {
                    then = solve(moistened(on, made, gained));
                } catch (const invalid_input&) { return false; }
                // Where another fret comes to be the deepest the relief has a corner, and two responses give it.
                if (then.relief->x != now.relief->x || abs(then.relief->gap) > 4 * mm) { return false; }
                const auto a = visit(now), b = visit(then);
                if (!validate(a).empty() || !validate(b).empty()) { return false; }
                season_response assumed;
                assumed.stiffness = made.stiffness;
                const auto found = season_of_visits(on, a, b, gained, assumed);
                wrong.unless_near("bow", found.bow, made.bow, 1e-9);
                wrong.unless_near("top", si(found.top), si(made.top), 1e-9);
                return true;
            },
            [](recipe& r) {
                r.state = r.state == 3 ? 0 : r.state;
                r.frets = std::max(12, r.frets);
                r.joint = std::min(r.joint, r.frets - 5);
            });
    }
}
