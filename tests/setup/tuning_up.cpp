#include <tautline/setup/tuning_up.hpp>

#include <cmath>

#include <doctest/doctest.h>

#include <tautline/setup/sounding.hpp>

#include "demo.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

strung_instrument on_a_soft_top() {
    strung_instrument on{demo::four_course(), demo::unison_pairs()};
    on.instrument.soundboard = soundboard{.sink_stiffness = 500 * N_per_mm};
    return on;
}

} // namespace

TEST_SUITE("tuning up") {
    TEST_CASE(
        "a string drawn up by a semitone sinks the top, and the others fall by what they are shortened: by two solves") {
        const auto on = on_a_soft_top();
        const auto before = solve(on);
        double most = 0;
        for (std::size_t j = 0; j < before.strings.size(); ++j) {
            auto up = on;
            up.stringing.strings[j].pitch.number += 1;
            const double sunk = (solve(up).top->drop - before.top->drop).value();
            for (std::size_t k = 0; k < before.strings.size(); ++k) {
                if (k == j) { continue; }
                const auto& other = before.strings[k];
                const double shorter = sunk * (other.at_saddle.down() / other.tension);
                const double lost = before.measures[k].axial_stiffness.value() * shorter / other.speaking_length.value();
                most = std::max(most, -600 * std::log2(1 - lost / other.tension.value()));
            }
        }
        const auto told = tuning_up_of(on, before);
        REQUIRE(told);
        // A semitone is no small change, and in two solves the others are held at pitch: a tenth between them.
        CHECK(near::within(told->most_moved.cents(), most, 0.1 * most));
        CHECK(told->most_moved.cents() > 0);
        CHECK(told->rounds >= 1);
    }
    TEST_CASE("a top twice as stiff moves them half as much; none is told where its stiffness is not known") {
        auto on = on_a_soft_top();
        on.instrument.soundboard->sink_stiffness = 50000 * N_per_mm;
        const double once = tuning_up_of(on, solve(on))->most_moved.cents();
        on.instrument.soundboard->sink_stiffness = 100000 * N_per_mm;
        CHECK(near::within(tuning_up_of(on, solve(on))->most_moved.cents(), once / 2, 0.01 * once));
        on.instrument.soundboard.reset();
        CHECK_FALSE(tuning_up_of(on, solve(on)));
    }
}

TEST_SUITE("both ends moved") {
    TEST_CASE("it leaves less error over the first octave than there is, and less than the saddle moved so alone") {
        const strung_instrument on{demo::four_course(), demo::unison_pairs()};
        const auto s = solve(on);
        const auto error = [](const string_setup& one) {
            double squares = 0;
            for (std::size_t n = 0; n < 12; ++n) { squares += std::pow(one.notes[n].error.cents(), 2); }
            return std::sqrt(squares / 12);
        };
        for (std::size_t i = 0; i < s.strings.size(); ++i) {
            const auto moved = both_ends_moved(on, s, i);
            REQUIRE(moved);
            CHECK(moved->root_mean_square.cents() < error(s.strings[i]));
            auto alone = on;
            alone.instrument.saddle.setback_bass = on.instrument.saddle.setback_bass + moved->setback;
            alone.instrument.saddle.setback_treble = on.instrument.saddle.setback_treble + moved->setback;
            CHECK(moved->root_mean_square.cents() < error(solve(alone).strings[i]));
        }
    }
    TEST_CASE("with fewer than two frets there is nothing to move for; a string that is not there is refused") {
        const strung_instrument on{demo::four_course(), demo::unison_pairs()};
        auto s = solve(on);
        CHECK_THROWS_AS((void)both_ends_moved(on, s, 8), invalid_input);
        s.fret_x.resize(1);
        CHECK_FALSE(both_ends_moved(on, s, 0));
    }
}
